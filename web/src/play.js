// play.js: a burn as a film: the stove coloured by its temperatures at every moment, output and excess air moving beside it.
import { h, fill, choice } from "./dom.js";
import { number, unit } from "./format.js";
import { Arch } from "./arch.js";
import { View, can_draw } from "./view3d.js";
import { copy_name, facts_of, key, mix, none } from "./colour.js";
import { model_feed } from "./model.js";
import { curves } from "./plot.js";
import * as state from "./state.js";

const speeds = [{ value: "60", text: "a minute in a second" }, { value: "300", text: "5 minutes in a second" }, { value: "900", text: "15 minutes in a second" }];

export function clock(time_s) {
    const minutes = Math.floor(time_s / 60 + 1e-6);
    return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** Between two samples, by share; samples rise in time, a refuel has two of one time. */
export function moment(samples, time_s) {
    let low = 0, high = samples.length - 1;
    while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (samples[middle].time_s <= time_s) low = middle;
        else high = middle;
    }
    const a = samples[low], b = samples[Math.min(high, samples.length - 1)], wide = b.time_s - a.time_s;
    const share = wide > 0 ? Math.max(0, Math.min(1, (time_s - a.time_s) / wide)) : 0;
    const between = (x, y) => (Number.isFinite(x) && Number.isFinite(y) ? x + (y - x) * share : Number.isFinite(x) ? x : null);
    return { value: (name) => between(a[name], b[name]), part_c: (i) => between(a.parts_c?.[i], b.parts_c?.[i]) };
}

/** burning: of a job `through`; answer: of the design, for numbers and names of pieces. */
export function player(burning, answer) {
    const samples = burning.burn.samples, end_s = samples.at(-1).time_s, stage = h("div", { class: "stage" });
    const parts = new Map(burning.parts.map((p, i) => [p.name, i])), facts = facts_of(answer);
    const all = samples.flatMap((s) => s.parts_c ?? []), low = Math.min(20, ...samples[0].parts_c ?? [20]), high = all.reduce((most, v) => Math.max(most, v), all.length ? -Infinity : 100);
    const part_of = (number, copy) => {
        const p = facts.get(number);
        return p ? parts.get(copy_name(p.name, copy, p.count)) ?? parts.get(p.name) : undefined;
    };
    let at_s = 0, frame = 0, before = 0, view = null, feed = null, speed = 300;
    const clock_face = h("output", { class: "clock" }), told = h("dl", { class: "facts" }), warn = h("p", { class: "warn", role: "alert" });
    const scrub = h("input", { type: "range", min: 0, max: end_s, step: 15, value: 0, "aria-label": "Moment of the burn", oninput: () => {
        stop();
        go(Number(scrub.value));
    } });
    const play = h("button", { type: "button", class: "go", onclick: () => (frame ? stop() : start()) }, "▶ Play");
    const x = { name: "time", unit: "min", values: samples.map((s) => s.time_s / 60) };
    const line = (name, u, get) => ({ name, unit: u, values: samples.map(get) });
    const charts = [curves("Fire and room", x, [line("fire", "kW", (s) => s.fuel_w / 1000), line("into the room", "kW", (s) => s.output_w / 1000)], { height: 190 }),
        curves("Excess air", x, [line("excess air", "", (s) => (Number.isFinite(s.lambda) && s.lambda < 20 ? s.lambda : null))], { height: 170 })];

    function paint() {
        if (!view) return;
        const now = moment(samples, at_s);
        view.paint((n, copy) => {
            const i = part_of(n, copy), c = i === undefined ? null : now.part_c(i);
            return Number.isFinite(c) ? mix((c - low) / (high - low)) : none;
        });
    }
    function go(time_s) {
        at_s = Math.max(0, Math.min(end_s, time_s));
        const now = moment(samples, at_s);
        clock_face.textContent = `${clock(at_s)} of ${clock(end_s)} h`;
        scrub.value = at_s;
        scrub.setAttribute("aria-valuetext", `${clock(at_s)} hours after lighting`);
        const rows = [["wood left", now.value("wood_kg"), "kg", 2], ["fire", now.value("fuel_w") / 1000, "kW", 3], ["into the room", now.value("output_w") / 1000, "kW", 3], ["excess air", now.value("lambda"), "", 3],
            ["flue gas", now.value("flue_c"), "degC", 3], ["firebox", now.value("firebox_c"), "degC", 3], ["pane", now.value("pane_c"), "degC", 3], ["shell", now.value("shell_c"), "degC", 3]];
        fill(told, rows.map(([k, v, u, d]) => h("div", {}, h("dt", {}, k), h("dd", {}, `${number(v, d)} ${unit(u)}`))));
        charts.forEach((c) => c.at(at_s / 60));
        paint();
    }
    function step(time_ms) {
        const passed_s = Math.min(0.2, (time_ms - before) / 1000);
        before = time_ms;
        go(at_s + passed_s * speed);
        if (at_s >= end_s) stop();
        else frame = requestAnimationFrame(step);
    }
    function start() {
        if (at_s >= end_s) at_s = 0;
        play.textContent = "❚❚ Pause";
        frame = requestAnimationFrame((t) => {
            before = t;
            step(t);
        });
    }
    function stop() {
        cancelAnimationFrame(frame);
        frame = 0;
        play.textContent = "▶ Play";
    }
    const jump = (text, name, by) => h("button", { type: "button", class: "quiet", "aria-label": name, onclick: () => {
        stop();
        go(at_s + by);
    } }, text);
    if (can_draw()) {
        view = new View(stage, "The stove in 3D, coloured by the temperatures of the moment. Arrow keys turn it.");
        view.stand_under(new Arch());
        feed = model_feed(() => state.design(), { held: () => view.held(), take: (bytes, fresh) => {
            view.load(bytes, fresh);
            stage.dataset.loaded = "1";
            paint();
        }, fault: (error) => (warn.textContent = error ? `3D: ${error.message}` : "") });
        feed.ask();
    } else fill(stage, h("p", { class: "hint" }, "This browser cannot draw in 3D (WebGL 2); the curves move all the same."));
    const levels = [0, 0.25, 0.5, 0.75, 1].map((s) => [mix(s), `${number(low + s * (high - low), 3)} °C`]);
    const host = h("div", { class: "film" }, h("div", {}, h("div", { class: "mouth" }, stage), warn, h("div", { class: "legend" }, key(levels, [none, "not followed"]))),
        h("div", {}, h("div", { class: "reel" }, play, jump("−1 min", "A minute back", -60), jump("+1 min", "A minute on", 60), choice("speed", speeds, "300", (v) => (speed = Number(v))), clock_face), scrub, told, h("div", { class: "charts film-charts" }, charts)));
    go(0);
    return { host, close() {
        stop();
        feed?.close();
        view?.close();
    } };
}

// line.js: stations, schedule and what a stove costs. Needs nests, so it is asked for, not followed.
import * as api from "../api.js";
import { h, s, fill, section } from "../dom.js";
import { number, percent, time, with_unit } from "../format.js";
import { facts, table } from "../table.js";
import { curves } from "../plot.js";
import { batch_field } from "./parts.js";

function schedule_picture(line) {
    const plan = line.schedule, bars = plan.bars ?? [];
    const lanes = [...new Set(bars.map((b) => `${b.station} ${b.machine}`))].sort();
    const w = 900, t = 24, left = 150, scale = (x) => left + (x / plan.makespan_s) * (w - left - 10);
    const svg = s("svg", { viewBox: `0 0 ${w} ${lanes.length * t + 26}`, role: "img", class: "schedule", "aria-label": `Schedule: ${lanes.length} machines, ${time(plan.makespan_s)} of work` });
    lanes.forEach((name, i) => {
        svg.append(s("text", { x: left - 8, y: i * t + 16, "text-anchor": "end", "font-size": 12, fill: "currentColor" }, name));
        svg.append(s("line", { x1: left, x2: w - 10, y1: (i + 1) * t, y2: (i + 1) * t, stroke: "currentColor", "stroke-opacity": 0.15 }));
    });
    for (const b of bars.slice(0, 4000)) {
        const y = lanes.indexOf(`${b.station} ${b.machine}`) * t + 4;
        const run = b.run_from_s ?? b.start_s;
        if (run > b.start_s) svg.append(s("rect", { class: "setup", x: scale(b.start_s), y: y + 5, width: Math.max(0.5, scale(run) - scale(b.start_s)), height: t - 14 }));
        const bar = s("rect", { class: b.stove % 2 ? "run odd" : "run", x: scale(run), y, width: Math.max(0.8, scale(b.end_s) - scale(run) - 0.4), height: t - 8 });
        bar.append(s("title", {}, `${line.route?.[b.task]?.task ?? ""}, stove ${b.stove}: ${time(b.start_s)} to ${time(b.end_s)}`));
        svg.append(bar);
    }
    svg.append(s("text", { x: left, y: lanes.length * t + 18, "font-size": 12, fill: "currentColor" }, "0"), s("text", { x: w - 10, y: lanes.length * t + 18, "text-anchor": "end", "font-size": 12, fill: "currentColor" }, time(plan.makespan_s)));
    return h("figure", { class: "chart" }, h("figcaption", {}, "Schedule: full bars run, low bars set up"), svg);
}

function draw(answer) {
    const l = answer.shop?.line, money = answer.works?.currency ?? "";
    if (!l) return h("p", { class: "warn" }, "The line was not computed; see the findings.");
    const c = l.cost, plan = l.schedule;
    return [facts([["bottleneck", l.bottleneck], ["takt", time(l.takt_s)], ["stoves a week it lets through", number(l.stoves_week, 3)], ["planned a week", number(l.stoves_week_planned, 3)], ["people", `${number(l.people, 3)}, needed ${number(l.people_needed, 3)}`],
        c && ["one stove", with_unit(c.unit, money)], c && ["with overhead", with_unit(c.base, money)], c && ["whole batch", with_unit(c.batch, money)], plan && ["work from first to last", time(plan.makespan_s)], plan && ["above the bound", percent(plan.gap)], plan && ["days", number(plan.days, 3)]]),
    plan?.bars?.length ? schedule_picture(l) : null,
    table("Stations", [{ head: "station", get: (x) => x.name }, { head: "machines", get: (x) => x.machines }, { head: "busy in the batch", get: (x) => x.busy, show: (v) => percent(v) }, { head: "run, batch", get: (x) => x.run_s, show: (v) => time(v) }, { head: "set-ups", get: (x) => x.set_ups },
        { head: "set-up time", get: (x) => x.set_up_s, show: (v) => time(v) }, { head: "a stove", get: (x) => x.stove_s, show: (v) => time(v) }, { head: "starved", get: (x) => x.starved_s, show: (v) => time(v) }, { head: "blocked", get: (x) => x.blocked_s, show: (v) => time(v) }], l.stations),
    c ? table("Cost of one stove", [{ head: "what", get: (x) => x.name }, { head: "kind", get: (x) => x.kind }, { head: "money", unit: money, get: (x) => x.stove }, { head: "share", get: (x) => x.share, show: (v) => percent(v) }], c.lines) : null,
    c?.batches?.length > 1 ? curves("Cost of one stove over the batch", { name: "batch", unit: "stoves", values: c.batches.map((b) => b.batch) }, [{ name: "without overhead", unit: money, values: c.batches.map((b) => b.unit) }, { name: "with overhead", unit: money, values: c.batches.map((b) => b.base) }]) : null,
    table("What if", [{ head: "change", get: (x) => x.what }, { head: "station", get: (x) => x.station }, { head: "days", get: (x) => x.days, digits: 3 }, { head: "against now", unit: "days", get: (x) => x.days_change, digits: 3 }, { head: "one stove", unit: money, get: (x) => x.unit }, { head: "against now", unit: money, get: (x) => x.unit_change, digits: 3 }], l.what_if),
    table("Route of one stove", [{ head: "task", get: (x) => x.task }, { head: "part", get: (x) => x.part }, { head: "operation", get: (x) => x.operation }, { head: "station", get: (x) => x.station }, { head: "count", get: (x) => x.count }, { head: "set-up", get: (x) => x.set_up_s, show: (v) => time(v) },
        { head: "run", get: (x) => x.run_s, show: (v) => time(v) }, { head: "on the longest way", get: (x) => x.critical }], l.route)];
}

export function open(root, app) {
    const host = h("div", {}), status = h("p", { class: "hint", role: "status" }), note = h("p", { class: "hint" });
    let stop = null, shown = "";
    const button = h("button", { type: "button", class: "go", onclick: ask }, "Plan and cost the batch");
    const cancel = h("button", { type: "button", class: "quiet", hidden: true, onclick: () => stop?.abort() }, "Cancel");
    async function ask() {
        stop = new AbortController();
        const key = JSON.stringify(app.state.design());
        button.disabled = true;
        cancel.hidden = false;
        status.className = "hint";
        status.textContent = "Nesting, cutting, planning: a few seconds.";
        try {
            const answer = await api.compute(app.state.design(), ["line"], stop.signal);
            fill(host, draw(answer));
            shown = key;
            status.textContent = `Done in ${number(answer.took_ms, 3)} ms.`;
            app.line_answer = { key, answer };
        } catch (error) {
            status.className = "warn";
            status.textContent = error.name === "AbortError" ? "Cancelled." : error.errors?.map((e) => `${e.what ?? e.text} ${e.remedy ?? ""}`).join("; ") ?? error.message;
        }
        button.disabled = false;
        cancel.hidden = true;
        fresh();
    }
    function fresh() {
        note.textContent = shown && shown !== JSON.stringify(app.state.design()) ? "This plan is of other settings than those on the page." : "";
    }
    root.append(section("Line and cost", app.state.get().works ? null : h("p", { class: "hint" }, "Planning needs a works: choose one above."), h("div", { class: "jobpanel" }, batch_field(), button, cancel, status, note), host));
    if (app.line_answer) {
        shown = app.line_answer.key;
        fill(host, draw(app.line_answer.answer));
    }
    return { show: fresh, close: () => stop?.abort() };
}

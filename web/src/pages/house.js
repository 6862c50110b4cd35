// house.js: the chimney, the room and what stands near the stove.
import * as api from "../api.js";
import * as state from "../state.js";
import { h, fill, section, choice } from "../dom.js";
import { along, along_table, drawing, map_picture, pressures, state_of, temperatures } from "../chimney.js";
import { number, plain, time, unit, with_unit, words } from "../format.js";
import { job_panel } from "../jobs.js";
import { stretches } from "../stretches.js";
import { facts, table } from "../table.js";
import { curves } from "../plot.js";
import { lazily, not_yet } from "./parts.js";

const yes = (v) => (v === true ? "yes" : v === false ? "no" : "–");
/** A reading's name without the unit it ends in. */
const reading = (name) => words(name.replace(/_(pa|c|percent|ppm)$/, "")).replace("co2", "CO2").replace(/^co /, "CO ");
const cases = { pressure: "pressure", temperature: "temperature", over_draught: "too strong", pressure_lowest: "pressure, lowest output", temperature_lowest: "temperature, lowest output" };
const symbols = { outside_c: "outside, °C", P_H: "P_H, draught of the column, Pa", P_E: "P_E, friction and bends, Pa", P_G: "P_G, change of speed, Pa", P_R: "P_R, resistance, Pa", P_L: "P_L, wind, Pa", P_Z: "P_Z, draught offered, Pa",
    P_Ze: "P_Ze, draught needed, Pa", P_W: "P_W, for the stove, Pa", P_FV: "P_FV, connecting pipe, Pa", P_B: "P_B, air supply, Pa", outlet_c: "gas at the top, °C", outlet_wall_c: "wall at the top, °C", dew_point_c: "dew point, °C", least_velocity_m_s: "least speed, m/s" };

function flue(f) {
    if (!f?.solved) return h("p", { class: "warn" }, "The chimney has no solution; see the findings.");
    const list = Object.entries(cases).filter(([k]) => f.conditions?.[k]);
    return [facts([["draws", yes(f.draws)], ["stays dry", yes(f.dry)], ["draws too strongly", yes(f.over_draught)], ["reserve", with_unit(f.reserve_pa, "Pa", 3)], ["least height", with_unit(f.least_height_m, "m", 3)],
        ["first wet at", f.first_wet_m === null ? "nowhere" : with_unit(f.first_wet_m, "m")], ["needs", f.designation_needed], ["offers", f.designation_offered]]),
    table("EN 13384-1, every case", [{ head: "quantity", get: (r) => r.text }, ...list.map(([k, text]) => ({ head: text, get: (r) => f.conditions[k][r.key] ?? null }))],
        Object.entries(symbols).map(([key, text]) => ({ key, text })))];
}

function days(house) {
    const rows = [["mild day, 15 °C", house.mild], ["coldest day of the site", house.cold]].filter(([, d]) => d).map(([text, d]) => ({ text, ...d }));
    return table("On the real chimney", [{ head: "day", get: (r) => r.text }, { head: "state", get: (r) => r.state }, { head: "draught", unit: "Pa", get: (r) => r.draught_pa, digits: 3 }, { head: "output", unit: "kW", get: (r) => r.output_w / 1000, digits: 3 },
        { head: "efficiency", unit: "%", get: (r) => r.efficiency * 100, digits: 3 }, { head: "excess air", get: (r) => r.lambda, digits: 3 }, { head: "flue gas", unit: "°C", get: (r) => r.flue_c, digits: 3 }, { head: "at the top", unit: "°C", get: (r) => r.outlet_c, digits: 3 },
        { head: "wall there", unit: "°C", get: (r) => r.wall_c, digits: 3 }, { head: "dew point", unit: "°C", get: (r) => r.dew_point_c, digits: 3 }], rows);
}

function start(s) {
    if (!s) return null;
    return [h("p", {}, s.draws_after_s === null ? "From cold the chimney does not draw within two hours." : `From cold it draws ${s.draws_after_s > 0 ? `after ${time(s.draws_after_s)}` : "at once"}; standing draught ${number(s.standing_pa, 3)} Pa.`),
        s.samples?.length ? curves("Draught after lighting", { name: "time", unit: "min", values: s.samples.map((p) => p.time_s / 60) }, [{ name: "draught", unit: "Pa", values: s.samples.map((p) => p.draught_pa) }]) : null];
}

function site(s) {
    if (!s) return not_yet("Site");
    return [facts([["opening for air needed", with_unit(s.vent_needed_mm2, "mm2")], ["fans draw", with_unit(s.fans_pa, "Pa", 3)], ["room below outside by", with_unit(s.depression_pa, "Pa", 2)], ["load on the floor", with_unit(s.floor_load_pa / 1000, "kPa", 3)], ["each leg", with_unit(s.leg_n, "N", 3)]]),
        table("Distances", [{ head: "what", get: (n) => plain(n.what) }, { head: "where", get: (n) => plain(n.where) }, { head: "needed", unit: "mm", get: (n) => n.needed_mm }, { head: "there", unit: "mm", get: (n) => n.there_mm },
            { head: "judged", get: (n) => (n.there_mm === null ? "–" : n.there_mm >= n.needed_mm ? "✓ holds" : "✕ fails") }, { head: "source", get: (n) => plain(n.source) }], s.needs),
        table("First fire: what it should read", [{ head: "reading", get: (r) => reading(r.name) }, { head: "when", get: (r) => r.when }, { head: "from", get: (r) => (r.yes_no ? (r.expected ? "yes" : "no") : r.low) }, { head: "to", get: (r) => r.high }, { head: "unit", get: (r) => unit(r.unit) },
            { head: "stop below", get: (r) => r.stop_low }, { head: "stop above", get: (r) => r.stop_high }, { head: "what helps", get: (r) => plain(r.remedy) }, { head: "source", get: (r) => plain(r.source) }], s.first_fire)];
}

function sizes(list) {
    return list?.length ? table("Liners compared", [{ head: "what", get: (s) => s.what }, { head: "diameter", unit: "mm", get: (s) => s.diameter_mm }, { head: "height", unit: "m", get: (s) => s.height_m }, { head: "reserve", unit: "Pa", get: (s) => s.reserve_pa, digits: 3 },
        { head: "wall over dew point", unit: "K", get: (s) => s.wall_over_dew_k, digits: 3 }, { head: "holds", get: (s) => s.holds }], list) : null;
}

const weathers = { outside_c: { label: "outside temperature", unit: "degC", low: -30, high: 40 }, wind_pa: { label: "wind on the outlet", unit: "Pa", low: -20, high: 60 } };

/** Outside temperature and wind; the address holds them. */
function weather_panel(changed) {
    const rows = Object.entries(weathers).map(([name, w]) => {
        const slider = h("input", { type: "range", min: w.low, max: w.high, step: 1, "aria-label": `${w.label}, slider` }), field = h("input", { type: "number", min: w.low, max: w.high, step: 1, "aria-label": w.label });
        const put = (from) => {
            const v = Number(from.value), good = from.value !== "" && v >= w.low && v <= w.high;
            from.setAttribute("aria-invalid", String(!good));
            if (!good) return;
            state.look({ [name]: v });
            show();
            changed();
        };
        slider.addEventListener("input", () => put(slider));
        field.addEventListener("input", () => put(field));
        const show = () => [slider, field].forEach((x) => document.activeElement !== x && (x.value = state.get()[name]));
        show();
        return { show, line: h("div", { class: "parameter" }, h("span", { class: "name" }, w.label), h("span", { class: "amount" }, field, h("span", { class: "unit" }, unit(w.unit))), slider,
            h("p", { class: "note" }, h("span", { class: "bounds" }, `${w.low} to ${w.high} ${unit(w.unit)}`), name === "wind_pa" ? "EN 13384-1 takes 25 Pa inland and 40 Pa at the coast where the outlet stands badly (from memory); below 0 the wind sucks." : "")) };
    });
    return h("div", { class: "weather" }, rows.map((r) => r.line));
}

function point_facts(p) {
    const st = state_of(p.state);
    if (p.state === "does not draw") return h("p", { class: "warn" }, "■ does not draw: the chimney gives too little draught even for the least air. More height, a warmer flue or less wind would help.");
    if (p.state === "too strong" || p.state === "not solved") return h("p", { class: "warn" }, st.sign, " ", st.text);
    return [h("p", { class: `operating ${p.state === "safe" ? "holds" : "watch"}` }, h("b", {}, st.sign, " ", st.text)),
        facts([["draught at the stove", with_unit(p.draught_pa, "Pa", 3)], ["into the room", with_unit(p.output_w / 1000, "kW", 3)], ["efficiency", `${number(p.efficiency * 100, 3)} %`], ["excess air", number(p.lambda, 3)], ["flue gas", with_unit(p.flue_c, "degC", 3)],
            ["gas", with_unit(p.gas_kg_s * 1000, "g/s", 3)], ["at the top", with_unit(p.outlet_c, "degC", 3)], ["wall there", with_unit(p.wall_c, "degC", 3)], ["dew point", with_unit(p.dew_point_c, "degC", 3)]])];
}

/** The chimney's list, its drawing and the curves beside it under a chosen weather. */
function chimney_pictures(app) {
    const pictures = h("div", { class: "flue-pictures" }), told = h("div", { role: "status" }), values = h("details", { class: "values" }, h("summary", {}, "Values along the flue")), warn = h("p", { class: "warn", role: "alert" });
    let which = "weather", answered = null, asked = "", busy = false, timer = 0, closed = false;
    const list = stretches(app, () => draw());
    const weather = weather_panel(() => ask());
    const case_choice = choice("Gas of", [{ value: "weather", text: "the stove on this chimney, in this weather" }, ...Object.entries(cases).map(([value, text]) => ({ value, text: `EN 13384-1: ${text}` }))], which, (v) => {
        which = v;
        weather.hidden = v !== "weather";
        draw();
        ask();
    });
    const flue_of = () => app.now.answer?.house?.flue;
    const condition = () => (which === "weather" ? answered?.along : flue_of()?.conditions?.[which]) ?? null;
    function draw() {
        const parts = list.parts();
        if (parts.length === 0) return;
        const c = condition(), fits = c && c.parts.length === parts.length && c.parts.every((l, i) => l.name === parts[i].name);
        const points = fits ? along(parts, c) : null;
        fill(pictures, drawing(parts, list.chosen(), (i) => list.choose(i)), points ? [temperatures(parts, points), pressures(parts, points)] : h("p", { class: "hint" }, c ? "The curves follow." : which === "weather" && answered ? "No curves: the gas does not rise." : "No curves yet."));
        values.hidden = !points;
        if (points) fill(values, h("summary", {}, "Values along the flue"), along_table(points));
        fill(told, which === "weather" && answered?.point ? point_facts(answered.point) : null);
    }
    async function ask() {
        clearTimeout(timer);
        if (which !== "weather" || !state.get().house || closed) return;
        const body = state.design(), now = { outside_c: state.get().outside_c, wind_pa: state.get().wind_pa }, key = JSON.stringify([body, now]);
        if (busy || key === asked) return;
        busy = true;
        asked = key;
        try {
            answered = await api.operating(body, now);
            warn.textContent = "";
        } catch (error) {
            answered = null;
            warn.textContent = error.message;
        }
        busy = false;
        if (closed) return;
        draw();
        timer = setTimeout(ask, 20); // the newest weather, if it has moved on
    }
    const host = h("div", { class: "flue-bench" }, list.host, h("div", { class: "flue-side" }, h("div", { class: "jobpanel" }, case_choice), weather, warn, told, pictures, values));
    return {
        host,
        show(now) {
            list.show(now);
            draw();
            clearTimeout(timer);
            if (now.answer && !now.errors) timer = setTimeout(ask, 150);
        },
        close() {
            closed = true;
            clearTimeout(timer);
        },
    };
}

export function open(root, app) {
    const hosts = [0, 1, 2].map(() => h("div", {})), pictures = chimney_pictures(app), bench = section("Chimney, stretch by stretch", pictures.host), map = h("div", {});
    const job = job_panel("chimney", "Draw the operating map and compare liners", {
        extra: () => ({ wind_pa: state.get().wind_pa }), get_answer: () => app.now.answer,
        show: (r) => fill(map, r.house?.map ? map_picture(r.house.map, { outside_c: state.get().outside_c, share: state.get().with.wash_share ?? 1 }) : h("p", { class: "warn" }, r.house?.why_not ?? "No map: the chimney or the fire has no solution."), sizes(r.house?.sizes)) });
    root.append(bench, section("Operating map", h("p", { class: "hint" }, "Every outside temperature with every stand of the airwash slide, with the wind chosen above and the wood of the duty."), job.host, map),
        section("Calculation by EN 13384-1", hosts[0]), section("Days and lighting", hosts[1]), section("Room and distances", hosts[2]));
    const need = (a, make) => {
        if (!a.house) return app.state.get().house ? h("p", { class: "hint" }, "Being computed.") : h("p", { class: "hint" }, "Choose a house above to ask its chimney.");
        return a.house.why_not ? h("p", { class: "warn" }, a.house.why_not) : make(a.house);
    };
    const parts = [lazily(hosts[0], (a) => [a.house?.flue, a.house?.why_not], (a) => need(a, (x) => [facts([["house", x.name], ["code", x.code], ["stove's figures", x.stove?.declared ? "from a type test" : "computed"]]), flue(x.flue)])),
        lazily(hosts[1], (a) => [a.house?.mild, a.house?.cold, a.house?.start?.draws_after_s, a.house?.start?.standing_pa], (a) => need(a, (x) => [days(x), start(x.start)])),
        lazily(hosts[2], (a) => a.house?.site ?? null, (a) => need(a, (x) => site(x.site)))];
    return {
        show(now) {
            bench.hidden = !state.get().house;
            pictures.show(now);
            parts.forEach((p) => p(now));
        },
        close() {
            pictures.close();
            job.close();
        },
    };
}

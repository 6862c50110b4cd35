// house.js: the chimney, the room and what stands near the stove.
import { h, section } from "../dom.js";
import { number, time, unit, with_unit, words } from "../format.js";
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
        Object.entries(symbols).map(([key, text]) => ({ key, text }))),
    table("Along the chimney, temperature case", [{ head: "part", get: (p) => p.name }, { head: "in", unit: "°C", get: (p) => p.entry_c, digits: 3 }, { head: "out", unit: "°C", get: (p) => p.exit_c, digits: 3 },
        { head: "wall", unit: "°C", get: (p) => p.wall_c, digits: 3 }, { head: "speed", unit: "m/s", get: (p) => p.velocity_m_s, digits: 3 }, { head: "draught", unit: "Pa", get: (p) => p.draught_pa, digits: 3 }, { head: "friction", unit: "Pa", get: (p) => p.friction_pa, digits: 3 }],
    f.conditions?.temperature?.parts)];
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
        table("Distances", [{ head: "what", get: (n) => n.what }, { head: "where", get: (n) => n.where }, { head: "needed", unit: "mm", get: (n) => n.needed_mm }, { head: "there", unit: "mm", get: (n) => n.there_mm },
            { head: "judged", get: (n) => (n.there_mm === null ? "–" : n.there_mm >= n.needed_mm ? "✓ holds" : "✕ fails") }, { head: "source", get: (n) => n.source }], s.needs),
        table("First fire: what it should read", [{ head: "reading", get: (r) => reading(r.name) }, { head: "when", get: (r) => r.when }, { head: "from", get: (r) => (r.yes_no ? (r.expected ? "yes" : "no") : r.low) }, { head: "to", get: (r) => r.high }, { head: "unit", get: (r) => unit(r.unit) },
            { head: "stop below", get: (r) => r.stop_low }, { head: "stop above", get: (r) => r.stop_high }, { head: "what helps", get: (r) => r.remedy }, { head: "source", get: (r) => r.source }], s.first_fire)];
}

function sizes(list) {
    return list?.length ? table("Liners compared", [{ head: "what", get: (s) => s.what }, { head: "diameter", unit: "mm", get: (s) => s.diameter_mm }, { head: "height", unit: "m", get: (s) => s.height_m }, { head: "reserve", unit: "Pa", get: (s) => s.reserve_pa, digits: 3 },
        { head: "wall over dew point", unit: "K", get: (s) => s.wall_over_dew_k, digits: 3 }, { head: "holds", get: (s) => s.holds }], list) : null;
}

export function open(root, app) {
    const hosts = [0, 1, 2].map(() => h("div", {}));
    root.append(section("Chimney", hosts[0]), section("Days and lighting", hosts[1]), section("Room and distances", hosts[2]));
    const need = (a, make) => {
        if (!a.house) return app.state.get().house ? h("p", { class: "hint" }, "Being computed.") : h("p", { class: "hint" }, "Choose a house above to ask its chimney.");
        return a.house.why_not ? h("p", { class: "warn" }, a.house.why_not) : make(a.house);
    };
    const parts = [lazily(hosts[0], (a) => [a.house?.flue, a.house?.sizes, a.house?.why_not], (a) => need(a, (x) => [facts([["house", x.name], ["code", x.code], ["stove's figures", x.stove?.declared ? "from a type test" : "computed"]]), flue(x.flue), sizes(x.sizes)])),
        lazily(hosts[1], (a) => [a.house?.mild, a.house?.cold, a.house?.start?.draws_after_s, a.house?.start?.standing_pa], (a) => need(a, (x) => [days(x), start(x.start)])),
        lazily(hosts[2], (a) => a.house?.site ?? null, (a) => need(a, (x) => site(x.site)))];
    return { show: (now) => parts.forEach((p) => p(now)) };
}

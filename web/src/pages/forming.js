// forming.js: press and rolls, welding, fit, lifting and coat of one stove.
import { h, section } from "../dom.js";
import { number, percent, time, with_unit } from "../format.js";
import { facts, table } from "../table.js";
import { lazily, not_yet } from "./parts.js";

function form(f) {
    if (!f) return not_yet("Bending");
    const strokes = f.pieces.flatMap((p) => p.strokes.map((s, i) => ({ ...s, number: p.number, step: i + 1 })));
    const rolls = f.pieces.flatMap((p) => p.rolls.map((r) => ({ ...r, number: p.number })));
    return [facts([["press brake, one stove", time(f.press_s)], ["rolls, one stove", time(f.rolls_s)], ["cost", number(f.cost)]]),
        table("Strokes in order", [{ head: "piece", get: (s) => s.number }, { head: "step", get: (s) => s.step }, { head: "bends", get: (s) => s.bends.join(", ") },
            { head: "die", unit: "mm", get: (s) => s.die_mm }, { head: "punch", get: (s) => s.punch }, { head: "force", unit: "kN", get: (s) => s.force_n / 1000 },
            { head: "wanted", unit: "°", get: (s) => s.angle_deg }, { head: "overbend", unit: "°", get: (s) => s.over_deg, digits: 3 },
            { head: "depth", unit: "mm", get: (s) => s.depth_mm }, { head: "gauge", unit: "mm", get: (s) => s.gauge_mm, show: (v) => (v === null ? "marked line" : number(v, 5)) },
            { head: "from", get: (s) => s.gauge_edge }, { head: "handling", get: (s) => [s.new_die && "tools set up", s.turn_over && "turn over", s.turn_round_deg && `turn ${s.turn_round_deg}°`].filter(Boolean).join(", ") || "–" },
            { head: "springback from", get: (s) => s.over_source }], strokes),
        table("Rolling", [{ head: "piece", get: (r) => r.number }, { head: "bend", get: (r) => r.bend }, { head: "radius", unit: "mm", get: (r) => r.radius_mm },
            { head: "radius under load", unit: "mm", get: (r) => r.loaded_mm }, { head: "feed", unit: "mm", get: (r) => r.feed_mm }, { head: "passes", get: (r) => r.passes.length },
            { head: "force", unit: "kN", get: (r) => r.force_n / 1000 }, { head: "template chord", unit: "mm", get: (r) => r.chord_mm },
            { head: "height", unit: "mm", get: (r) => r.sagitta_mm }, { head: "from", unit: "mm", get: (r) => r.sagitta_low_mm }, { head: "to", unit: "mm", get: (r) => r.sagitta_high_mm }], rolls)];
}

function join(j) {
    if (!j) return not_yet("Welding");
    return [facts([["weld", with_unit(j.weld_mm / 1000, "m")], ["of it tight to gas", with_unit(j.tight_mm / 1000, "m")], ["leaks", `${number(j.leak_area_mm2)} mm² at ${j.leak_points} places`],
        ["wire", with_unit(j.wire_kg, "kg")], ["gas", with_unit(j.gas_m3, "m3")], ["arc", time(j.arc_s)], ["cost of time", number(j.cost_time)],
        ["seams without a row of the works", String(j.seams_without_row)]]),
    table("Bodies in welding order", [{ head: "body", get: (b) => b.name }, { head: "pieces", get: (b) => b.pieces }, { head: "mass", unit: "kg", get: (b) => b.mass_kg },
        { head: "tacks", get: (b) => b.tacks }, { head: "by hand", unit: "mm", get: (b) => b.hand_mm }, { head: "robot", unit: "mm", get: (b) => b.robot_mm },
        { head: "tacking", get: (b) => b.tack_s, show: (v) => time(v) }, { head: "hand time", get: (b) => b.hand_s, show: (v) => time(v) },
        { head: "robot time", get: (b) => b.robot_s, show: (v) => time(v) }, { head: "turns", get: (b) => b.turns }], j.bodies),
    table("Seams", [{ head: "no.", get: (s) => s.number }, { head: "joint", get: (s) => s.joint }, { head: "kind", get: (s) => s.kind }, { head: "throat", unit: "mm", get: (s) => s.throat_mm },
        { head: "length", unit: "mm", get: (s) => s.weld_mm }, { head: "torch reaches", get: (s) => s.reached }, { head: "in the way", get: (s) => s.in_the_way },
        { head: "station", get: (s) => s.station }, { head: "why by hand", get: (s) => s.why }, { head: "heat", unit: "kJ/mm", get: (s) => s.heat_kj_mm, digits: 3 },
        { head: "wire", unit: "g", get: (s) => s.wire_kg * 1000, digits: 3 }, { head: "shrinks across", unit: "mm", get: (s) => s.shrink_across_mm, digits: 2 },
        { head: "rises", unit: "mm", get: (s) => s.rise_mm, digits: 2 }], j.seams)];
}

function fit(f) {
    if (!f) return not_yet("Fit");
    return [facts([["stoves drawn at random", String(f.stoves)], ["every joint fits in", percent(f.all_fit)]]),
        table("Gaps at the joints", [{ head: "joint", get: (j) => j.name }, { head: "limit", unit: "mm", get: (j) => j.limit_mm }, { head: "drawn", unit: "mm", get: (j) => j.gap_mm, digits: 3 },
            { head: "worst in all", unit: "mm", get: (j) => (j.worst_mm == null ? null : j.gap_mm + j.worst_mm), digits: 3 }, { head: "95 of 100", unit: "mm", get: (j) => j.p95_mm, digits: 3 }, { head: "over the limit", get: (j) => j.over, show: (v) => percent(v) },
            { head: "most from", get: (j) => j.shares?.[0]?.name }, { head: "limit from", get: (j) => j.limit_source }], f.joints),
        table("What to measure", [{ head: "piece", get: (i) => i.piece }, { head: "feature", get: (i) => i.feature }, { head: "nominal", get: (i) => i.nominal }, { head: "low", get: (i) => i.low },
            { head: "high", get: (i) => i.high }, { head: "unit", get: (i) => i.unit }, { head: "gauge", get: (i) => i.gauge }, { head: "explains so far", get: (i) => i.covered, show: (v) => percent(v) }], f.inspection)];
}

function lift(l) {
    if (!l) return not_yet("Lifting");
    return [table("Lifts", [{ head: "load", get: (s) => s.load }, { head: "action", get: (s) => s.action }, { head: "station", get: (s) => s.station }, { head: "mass", unit: "kg", get: (s) => s.mass_kg },
        { head: "one person", unit: "kg", get: (s) => s.single_kg }, { head: "two people", unit: "kg", get: (s) => s.team_kg }, { head: "way", get: (s) => s.way }, { head: "hoist", get: (s) => s.hoist },
        { head: "held", get: (s) => s.held }], l.steps)];
}

function coat(c) {
    if (!c) return not_yet("Coat");
    return [facts([["blasted", with_unit(c.blast_m2, "m2")], ["grade", c.grade], ["coated", with_unit(c.coat_m2, "m2")], ["masked", with_unit(c.masked_m2, "m2")], ["paint", with_unit(c.litres, "l")],
        ["film", with_unit(c.film_um, "µm")], ["solvent into the air", with_unit(c.solvent_kg, "kg")], ["curing, one load", time(c.cure_s)]]),
    table("Curing and first fires", [{ head: "step", get: (s) => s.name }, { head: "how", get: (s) => s.text }, { head: "temperature", unit: "°C", get: (s) => s.temperature_c }, { head: "time", get: (s) => s.time_s, show: (v) => time(v) }],
        [...(c.cure ?? []), ...(c.first_fires ?? [])]),
    table("Masks", [{ head: "kind", get: (m) => m.kind }, { head: "where", get: (m) => m.where }, { head: "how", get: (m) => m.how }, { head: "count", get: (m) => m.count }, { head: "length", unit: "mm", get: (m) => m.length_mm }], c.masks),
    table("Coat against temperature", [{ head: "part", get: (r) => r.name }, { head: "coated", get: (r) => r.coated }, { head: "gets", unit: "°C", get: (r) => r.temperature_c, digits: 3 },
        { head: "bears", unit: "°C", get: (r) => r.class_c }, { head: "margin", unit: "K", get: (r) => r.margin_k, digits: 3 }], c.ratings)];
}

export function open(root) {
    const parts = [["Press brake and rolls", "form", form], ["Welding", "join", join], ["Fit of the joints", "fit", fit], ["Lifting", "lift", lift], ["Coat", "coat", coat]]
        .map(([title, key, make]) => {
            const host = h("div", {});
            root.append(section(title, host));
            return lazily(host, (a) => a.shop?.[key] ?? null, (a) => make(a.shop?.[key]));
        });
    return { show: (now) => parts.forEach((p) => p(now)) };
}

// colour.js: what a piece is coloured by, and the legend that says it in words and numbers.
import { h } from "./dom.js";
import { number, percent, unit, words } from "./format.js";
import { pieces_of_joints } from "./places.js";

// Kinds differ in lightness as well as in hue, so that they can be told apart without colour.
const kinds = ["#8fa0a8", "#c9a46b", "#5f7f6f", "#b9745a", "#d8d3c4", "#6c6a86", "#a9b98a", "#4f5a60", "#c98f9a"];
// From cool steel to glowing: lightness falls all the way.
const ramp = [[0.86, 0.89, 0.9], [0.91, 0.8, 0.58], [0.87, 0.58, 0.28], [0.7, 0.31, 0.16], [0.36, 0.13, 0.17]];
export const ways = [
    { value: "material", text: "material" }, { value: "thickness", text: "thickness" },
    { value: "temperature", text: "temperature" }, { value: "mass", text: "mass" },
    { value: "weld", text: "weld order" }, { value: "fit", text: "fit risk" },
];

export function mix(share) {
    const at = Math.max(0, Math.min(1, share)) * (ramp.length - 1), i = Math.min(ramp.length - 2, Math.floor(at));
    const rgb = ramp[i].map((c, k) => Math.round(255 * (c + (ramp[i + 1][k] - c) * (at - i))));
    return `rgb(${rgb.join(",")})`;
}

/** Facts of a piece by its number, from an answer. Of several copies the hottest counts; hot_copies holds each. */
export function facts_of(answer) {
    const hot = new Map((answer?.burning?.parts ?? []).map((p) => [p.name, p.hot_c])), list = new Map();
    for (const p of [...(answer?.pieces ?? []), ...(answer?.items ?? [])]) {
        const hot_copies = Array.from({ length: p.count || 1 }, (_, i) => hot.get(copy_name(p.name, i + 1, p.count)) ?? null);
        const known = hot_copies.filter(Number.isFinite);
        list.set(p.number, { ...p, hot_copies, hot_c: known.length ? Math.max(...known) : null, thickness_mm: p.thickness_mm ?? null });
    }
    return list;
}

/** What the study of heat calls a copy of a piece. */
export function copy_name(name, copy, count) {
    return count > 1 ? `${name} ${copy}` : name;
}

const value_of = { thickness: (p) => p.thickness_mm, temperature: (p) => p.hot_c, mass: (p) => p.mass_kg };
const unit_of = { thickness: "mm", temperature: "degC", mass: "kg" };
export const none = "#77797a";

/** {of(number, copy) -> css colour, tell(number) -> text, legend -> element}. */
export function colouring(way, answer) {
    if (way === "weld") return by_weld(answer);
    if (way === "fit") return by_fit(answer);
    const facts = facts_of(answer);
    if (way === "material") return by_material(facts);
    const get = value_of[way], all = [...facts.values()].map(get).filter((v) => Number.isFinite(v));
    const low = Math.min(...all), high = Math.max(...all);
    const share = (v) => (high > low ? (v - low) / (high - low) : 0.5);
    const levels = way === "thickness" ? [...new Set(all)].sort((a, b) => a - b)
        : [0, 0.25, 0.5, 0.75, 1].map((s) => low + s * (high - low));
    const at = (n, copy) => {
        const p = facts.get(n);
        return p && way === "temperature" ? p.hot_copies[(copy ?? 1) - 1] ?? p.hot_c : p ? get(p) : null;
    };
    return {
        of: (n, copy) => (Number.isFinite(at(n, copy)) ? mix(share(at(n, copy))) : none),
        tell: (n) => (Number.isFinite(get(facts.get(n) ?? {})) ? `${number(get(facts.get(n)), 3)} ${unit(unit_of[way])}` : `${way} not known`),
        legend: all.length === 0 ? h("p", { class: "hint" }, `No ${way} is known.`)
            : key(levels.map((v) => [mix(share(v)), `${number(v, 3)} ${unit(unit_of[way])}`]), [none, "not known"]),
    };
}

function by_material(facts) {
    const names = [...new Set([...facts.values()].map((p) => p.material || "bought in"))];
    const colour = (n) => kinds[Math.max(0, names.indexOf(n)) % kinds.length];
    return {
        of: (n) => (facts.has(n) ? colour(facts.get(n).material || "bought in") : none),
        tell: (n) => facts.get(n)?.material || "bought in",
        legend: key(names.map((n) => [colour(n), n])),
    };
}

/** The first step of welding at which each piece is joined: number -> {step, body}; steps as the bodies are welded. */
export function weld_steps(answer) {
    const join = answer?.shop?.join, steps = new Map();
    if (!join) return { steps, bodies: [] };
    const seams = new Map(join.seams.map((s) => [s.number, s]));
    const bodies = join.bodies.filter((b) => b.hand.length + b.robot.length > 0);
    bodies.forEach((body, i) => {
        for (const n of [...body.hand, ...body.robot.map((r) => r.seam)])
            for (const side of [seams.get(n)?.a, seams.get(n)?.b]) {
                const piece = side?.split(" ")[0];
                if (piece && !steps.has(piece)) steps.set(piece, { step: i + 1, body });
            }
    });
    return { steps, bodies };
}

function by_weld(answer) {
    const { steps, bodies } = weld_steps(answer), last = bodies.length;
    if (last === 0) return nothing("Welding is not computed yet.");
    const colour = (step) => mix(last > 1 ? (step - 1) / (last - 1) : 0);
    return {
        of: (n) => (steps.has(n) ? colour(steps.get(n).step) : none),
        tell: (n) => (steps.has(n) ? `welded first in step ${steps.get(n).step} of ${last}: ${steps.get(n).body.name}` : "not welded"),
        legend: key(bodies.map((b, i) => [colour(i + 1), `${i + 1} ${b.name}`]), [none, "not welded"], "steps"),
    };
}

const risk_share = (i, count) => [0, 0.35, 0.65, 1][i] ?? i / Math.max(1, count - 1);

/** The joint of each piece that fits worst: number -> {risk, joint}. */
export function fit_risks(answer) {
    const met = pieces_of_joints(answer), worst = new Map(), names = (answer?.shop?.fit?.risks ?? []).map((r) => r.name);
    for (const j of answer?.shop?.fit?.joints ?? []) {
        if (!names.includes(j.risk)) continue; // no limit
        const mine = { risk: names.indexOf(j.risk), use: j.p95_mm / j.limit_mm, joint: j };
        for (const n of met.get(j.name) ?? []) {
            const had = worst.get(n);
            if (!had || mine.risk > had.risk || (mine.risk === had.risk && mine.use > had.use)) worst.set(n, mine);
        }
    }
    return worst;
}

export const risk_text = (r) => `${r.joint.risk}; worst at ${words(r.joint.name)}: 95 of 100 gaps within ${number(r.joint.p95_mm, 2)} mm of ${number(r.joint.limit_mm, 2)} mm, over in ${percent(r.joint.over, 2)}`;

function by_fit(answer) {
    const worst = fit_risks(answer);
    if (worst.size === 0) return nothing("The fit of the joints is not computed yet; it follows when the design rests.");
    const risks = answer.shop.fit.risks.map((r, i, all) => ({ text: `${r.name}: ${r.text}`, colour: mix(risk_share(i, all.length)) }));
    const count = risks.map((_, i) => [...worst.values()].filter((r) => r.risk === i).length);
    return {
        of: (n) => (worst.has(n) ? risks[worst.get(n).risk].colour : none),
        tell: (n) => (worst.has(n) ? risk_text(worst.get(n)) : "at no joint with a limit"),
        legend: key(risks.map((r, i) => [r.colour, `${r.text} (${count[i]} pieces)`]).filter((_, i) => count[i] > 0), [none, "at no joint with a limit"]),
    };
}

const nothing = (text) => ({ of: () => none, tell: () => text, legend: h("p", { class: "hint" }, text) });

export function key(rows, last = null, kind = "") {
    return h("ul", { class: `key ${kind}`, "aria-label": "What the colours mean" }, [...rows, ...(last ? [last] : [])].map(([c, text]) => {
        const swatch = h("i", { "aria-hidden": "true" });
        swatch.style.background = c;
        return h("li", {}, swatch, text);
    }));
}

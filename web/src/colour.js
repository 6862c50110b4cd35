// colour.js: what a piece is coloured by, and the legend that says it in words and numbers.
import { h } from "./dom.js";
import { number, unit } from "./format.js";

// Kinds differ in lightness as well as in hue, so that they can be told apart without colour.
const kinds = ["#8fa0a8", "#c9a46b", "#5f7f6f", "#b9745a", "#d8d3c4", "#6c6a86", "#a9b98a", "#4f5a60", "#c98f9a"];
// From cool steel to glowing: lightness falls all the way.
const ramp = [[0.86, 0.89, 0.9], [0.91, 0.8, 0.58], [0.87, 0.58, 0.28], [0.7, 0.31, 0.16], [0.36, 0.13, 0.17]];
export const ways = [
    { value: "material", text: "material" }, { value: "thickness", text: "thickness" },
    { value: "temperature", text: "temperature" }, { value: "mass", text: "mass" },
];

function mix(share) {
    const at = Math.max(0, Math.min(1, share)) * (ramp.length - 1), i = Math.min(ramp.length - 2, Math.floor(at));
    const rgb = ramp[i].map((c, k) => Math.round(255 * (c + (ramp[i + 1][k] - c) * (at - i))));
    return `rgb(${rgb.join(",")})`;
}

/** Facts of a piece by its number, from an answer. */
export function facts_of(answer) {
    const hot = new Map((answer?.burning?.parts ?? []).map((p) => [p.name, p.hot_c]));
    const list = new Map();
    for (const p of [...(answer?.pieces ?? []), ...(answer?.items ?? [])])
        list.set(p.number, { ...p, hot_c: hot.get(p.name) ?? null, thickness_mm: p.thickness_mm ?? null });
    return list;
}

const value_of = { thickness: (p) => p.thickness_mm, temperature: (p) => p.hot_c, mass: (p) => p.mass_kg };
const unit_of = { thickness: "mm", temperature: "degC", mass: "kg" };
const none = "#77797a";

/** {of(number) -> css colour, tell(number) -> text, legend -> element}. */
export function colouring(way, answer) {
    const facts = facts_of(answer);
    if (way === "material") return by_material(facts);
    const get = value_of[way], all = [...facts.values()].map(get).filter((v) => Number.isFinite(v));
    const low = Math.min(...all), high = Math.max(...all);
    const share = (v) => (high > low ? (v - low) / (high - low) : 0.5);
    const levels = way === "thickness" ? [...new Set(all)].sort((a, b) => a - b)
        : [0, 0.25, 0.5, 0.75, 1].map((s) => low + s * (high - low));
    return {
        of: (n) => (Number.isFinite(get(facts.get(n) ?? {})) ? mix(share(get(facts.get(n)))) : none),
        tell: (n) => `${number(get(facts.get(n) ?? {}), 3)} ${unit(unit_of[way])}`,
        legend: all.length === 0 ? h("p", { class: "hint" }, `no ${way} known`)
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

function key(rows, last = null) {
    return h("ul", { class: "key", "aria-label": "What the colours mean" }, [...rows, ...(last ? [last] : [])].map(([c, text]) => {
        const swatch = h("i", { "aria-hidden": "true" });
        swatch.style.background = c;
        return h("li", {}, swatch, text);
    }));
}

export { mix };

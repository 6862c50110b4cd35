// figures.js: the few numbers on the mantel, each with its change against the design as it was opened.
import { h } from "./dom.js";
import { fixed, unit } from "./format.js";

const or_null = (x) => (Number.isFinite(x) ? x : null);

export const figures = [
    { name: "mass", unit: "kg", places: 1, get: (a) => a.masses?.stove?.mass_kg },
    { name: "output", unit: "kW", places: 2, get: (a) => or_null(a.burning?.fire?.output_w / 1000), study: "fire" },
    { name: "efficiency", unit: "%", places: 1, get: (a) => or_null(a.burning?.fire?.efficiency * 100), study: "fire" },
    { name: "excess air", unit: "", places: 2, get: (a) => a.burning?.fire?.lambda, study: "fire" },
    { name: "flue gas", unit: "degC", places: 0, get: (a) => a.burning?.fire?.flue_c, study: "fire" },
    { name: "pane", unit: "degC", places: 0, get: (a) => a.burning?.pane_c, study: "heat" },
    { name: "draught reserve", unit: "Pa", places: 1, get: (a) => a.house?.flue?.reserve_pa, study: "flue" },
    { name: "weld", unit: "m", places: 2, get: (a) => or_null(a.shop?.join?.weld_mm / 1000), study: "join" },
];

/** What a figure is in an answer and by how much it differs from another; null = not known. */
function compared(f, answer, other) {
    const value = (a) => or_null(a ? f.get(a) : null), is = value(answer), was = value(other);
    return { is, was, by: is === null || was === null ? null : is - was };
}

export function figure_row() {
    const cells = figures.map((f) => {
        const value = h("b", {}), change = h("small", {});
        const box = h("div", { class: "figure" }, h("span", {}, f.name), h("p", {}, value, h("i", {}, unit(f.unit))), change);
        return { f, value, change, box };
    });
    const host = h("div", { class: "figures", role: "group", "aria-label": "Figures of the stove" }, cells.map((c) => c.box));
    return {
        host,
        show(now) {
            for (const { f, value, change, box } of cells) {
                const { is, by } = compared(f, now.answer, now.first), small = by === null || Math.abs(by) < 0.5 * 10 ** -f.places;
                value.textContent = fixed(is, f.places);
                change.textContent = small ? "as opened" : `${by > 0 ? "▲ +" : "▼ −"}${fixed(Math.abs(by), f.places)}`;
                change.className = small ? "same" : "moved";
                box.classList.toggle("old", Boolean(f.study && now.old.has(f.study)));
            }
        },
    };
}

/** Two answers and their difference, line by line. */
export function figure_table(a, b, names) {
    const rows = figures.map((f) => {
        const { is, was, by } = compared(f, b, a);
        return h("tr", {}, h("th", { scope: "row" }, f.name), h("td", {}, fixed(was, f.places)), h("td", {}, fixed(is, f.places)),
            h("td", {}, by === null ? "–" : `${by > 0 ? "+" : ""}${fixed(by, f.places)}`), h("td", {}, unit(f.unit)));
    });
    for (const v of ["fails", "watch", "unknown", "holds"]) {
        const x = a?.verdicts?.[v], y = b?.verdicts?.[v];
        rows.push(h("tr", {}, h("th", { scope: "row" }, `findings: ${v}`), h("td", {}, x ?? "–"), h("td", {}, y ?? "–"),
            h("td", {}, Number.isFinite(x) && Number.isFinite(y) ? `${y - x > 0 ? "+" : ""}${y - x}` : "–"), h("td", {}, "")));
    }
    return h("table", { class: "numbers" }, h("caption", {}, "Figures side by side"),
        h("thead", {}, h("tr", {}, ["", names[0], names[1], "difference", ""].map((t) => h("th", { scope: "col" }, t)))),
        h("tbody", {}, rows));
}


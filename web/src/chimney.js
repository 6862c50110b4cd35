// chimney.js: a chimney drawn to the height of its stretches, with what its gas is like beside it; and the operating map.
import { h, s, fresh_id } from "./dom.js";
import { number, unit } from "./format.js";
import { table } from "./table.js";

const tall = 420, top = 56, foot = 46;
export const arounds = { heated: "heated rooms", "boiler room": "boiler room", unheated: "unheated space", outdoors: "outdoors" };
const text = (x, y, words, more = {}) => s("text", { x, y, "font-size": 12, fill: "currentColor", ...more }, words);

/** Where each stretch begins and ends, in m along the flue. */
function stations(parts) {
    let at = 0;
    return parts.map((p) => ({ from: at, to: (at += Math.max(0.01, p.length_m || 0)) }));
}

const scale_of = (parts) => {
    const places = stations(parts), whole = places.at(-1)?.to ?? 1;
    return { places, whole, y: (m) => top + tall * (1 - m / whole) };
};

/** Labels low to high, pushed apart so that none lies on another. */
function spread(wanted, gap) {
    const order = wanted.map((y, i) => ({ y, i })).sort((a, b) => b.y - a.y);
    for (let k = 1; k < order.length; k++) order[k].y = Math.min(order[k].y, order[k - 1].y - gap);
    const over = top - (order.at(-1)?.y ?? top);
    if (over > 0) order.forEach((o) => (o.y += over * ((top + tall - o.y) / tall)));
    const out = [];
    for (const o of order) out[o.i] = o.y;
    return out;
}

function hatches(id) {
    const mark = (name, d) => s("pattern", { id: `${id}-${name}`, width: 8, height: 8, patternUnits: "userSpaceOnUse" }, s("path", { d, stroke: "currentColor", "stroke-opacity": 0.4, fill: "none" }));
    return s("defs", {}, mark("unheated", "M0 8 8 0"), mark("boiler", "M1 4h2M5 0v2"), mark("outdoors", "M0 4h3"));
}

/** The stretches from the stove up. chosen: index that stands out; pick(index) when one is clicked. */
export function drawing(parts, chosen, pick) {
    const id = fresh_id("chimney"), { places, whole, y } = scale_of(parts), x = 70, widest = Math.max(...parts.map((p) => p.outer_mm || p.width_mm || 150), 1);
    const half = (mm) => Math.max(5, (mm / widest) * 32);
    const svg = s("svg", { viewBox: `0 0 300 ${top + tall + foot}`, role: "img", class: "chimney", "aria-label":
        `The chimney from the stove up, ${number(whole, 3)} m along the flue: ${parts.map((p) => `${p.name}, ${number(p.length_m, 3)} m, ${arounds[p.around]}`).join("; ")}` }, hatches(id));
    const ys = spread(places.map((p) => (y(p.from) + y(p.to)) / 2 - 4), 44);
    parts.forEach((p, i) => {
        const up = y(places[i].to), high = y(places[i].from) - up, fill = { unheated: `url(#${id}-unheated)`, "boiler room": `url(#${id}-boiler)`, outdoors: `url(#${id}-outdoors)` }[p.around] ?? "none";
        const group = s("g", { class: i === chosen ? "stretch chosen" : "stretch" });
        group.addEventListener("click", () => pick?.(i));
        const outer = half(p.outer_mm || p.width_mm), inner = Math.min(outer - 1.5, half(p.width_mm || 100));
        group.append(s("rect", { x: 8, y: up, width: 124, height: high, class: `around ${p.around.replace(" ", "-")}` }), s("rect", { x: 8, y: up, width: 124, height: high, fill }),
            s("rect", { x: x - outer, y: up, width: 2 * outer, height: high, class: p.kind === "pipe" ? "wall pipe" : "wall" }), s("rect", { x: x - inner, y: up, width: 2 * inner, height: high, class: "way" }),
            s("path", { d: `M${x + outer} ${up + high / 2} L146 ${ys[i] + 6}`, stroke: "currentColor", "stroke-opacity": 0.5, fill: "none" }),
            text(150, ys[i], `${i + 1}  ${p.name}`, { "font-weight": i === chosen ? 700 : 600 }),
            text(150, ys[i] + 14, `${number(p.length_m, 3)} m, ${p.round === false ? `${number(p.width_mm)} × ${number(p.depth_mm)}` : `Ø ${number(p.width_mm)}`} mm`),
            text(150, ys[i] + 28, `${p.around === "outdoors" ? "" : "in "}${arounds[p.around]}${p.bends ? `, ${p.bends} ${p.bends === 1 ? "turn" : "turns"}` : ""}`));
        svg.append(group);
    });
    const first_out = parts.findIndex((p) => p.around === "outdoors"), end = half(parts.at(-1)?.outer_mm || 150) + 6;
    if (first_out > 0) svg.append(s("path", { d: `M2 ${y(places[first_out].from) + 22} L${x} ${y(places[first_out].from) - 4} L140 ${y(places[first_out].from) + 22}`, class: "roof" }));
    svg.append(s("path", { d: `M${x - end} ${top - 6} L${x} ${top - 18} L${x + end} ${top - 6}`, class: "roof" }),
        s("rect", { x: x - 34, y: top + tall, width: 68, height: 34, class: "wall pipe" }), text(x, top + tall + 22, "stove", { "text-anchor": "middle", class: "on" }));
    return h("figure", { class: "chart" }, h("figcaption", {}, "The flue, stretch by stretch"), svg);
}

const steps = 10;

/** Points of gas, wall and draught along the flue; c: a condition of the answer. */
export function along(parts, c) {
    const { places } = scale_of(parts), points = [];
    c.parts.forEach((l, i) => {
        for (let k = 0; k <= steps; k++) {
            const share = k / steps, gas = l.around_c + (l.entry_c - l.around_c) * Math.exp(-l.K * share);
            const part = Math.abs(l.exit_c - l.entry_c) > 1e-9 ? (gas - l.entry_c) / (l.exit_c - l.entry_c) : share;
            points.push({ at_m: places[i].from + (places[i].to - places[i].from) * share, part: l.name, gas_c: gas,
                wall_c: l.wall_entry_c + (l.wall_c - l.wall_entry_c) * part, dew_c: c.dew_point_c, draught_pa: l.entry_pa + l.step_pa + (l.exit_pa - l.entry_pa - l.step_pa) * share });
        }
    });
    return points;
}

function ticks(low, high, wanted = 3.4) {
    const raw = (high - low) / wanted, size = 10 ** Math.floor(Math.log10(raw || 1)), step = [1, 2, 5, 10].map((f) => f * size).find((v) => v >= raw) ?? raw;
    const list = [];
    for (let k = Math.ceil(low / step - 1e-9); k * step <= high + 1e-9 * step; k++) list.push(k * step);
    return list;
}

/** Curves over the height; lines: {name, get, dash, line}. */
export function upright(title, parts, points, lines, mark_unit, wide) {
    const { places, whole, y } = scale_of(parts), left = 36, right = 12;
    const values = points.flatMap((p) => lines.map((l) => l.get(p))).filter(Number.isFinite);
    let low = Math.min(0, ...values), high = Math.max(...values);
    if (high - low < 1e-6) high = low + 1;
    high += (high - low) * 0.06;
    const x = (v) => left + ((v - low) / (high - low)) * (wide - left - right);
    const svg = s("svg", { viewBox: `0 0 ${wide} ${top + tall + foot}`, role: "img", class: "chimney", "aria-label": `${title}, from the stove up: ${lines.map((l) =>
        `${l.name} from ${number(l.get(points[0]), 3)} to ${number(l.get(points.at(-1)), 3)} ${unit(mark_unit)}`).join(", ")}. The values stand in the table below.` });
    const line = (d, more) => svg.append(s("path", { d, fill: "none", stroke: "currentColor", ...more }));
    for (const v of ticks(low, high)) {
        line(`M${x(v)} ${top}V${top + tall}`, { "stroke-opacity": v === 0 ? 0.7 : 0.15 });
        svg.append(text(x(v), top + tall + 16, number(v, 3), { "text-anchor": "middle" }));
    }
    places.forEach((p) => line(`M${left} ${y(p.to)}H${wide - right}`, { "stroke-opacity": 0.4, "stroke-dasharray": "2 3" }));
    for (const m of ticks(0, whole)) svg.append(text(left - 6, y(m) + 4, number(m, 3), { "text-anchor": "end" }));
    svg.append(text(left - 6, top - 6, "m", { "text-anchor": "end" }), text(wide - right, top + tall + 34, unit(mark_unit), { "text-anchor": "end" }));
    lines.forEach((l, i) => {
        line(points.map((p, k) => `${k ? "L" : "M"}${x(l.get(p)).toFixed(1)} ${y(p.at_m).toFixed(1)}`).join(""), { stroke: `var(--line${l.line})`, "stroke-width": 2.4, "stroke-dasharray": l.dash || null, "stroke-opacity": 1 });
        const at = 13 + i * 15;
        svg.append(s("path", { d: `M${left} ${at - 4}h20`, stroke: `var(--line${l.line})`, "stroke-width": 2.4, "stroke-dasharray": l.dash || null }), text(left + 25, at, l.name));
    });
    return h("figure", { class: "chart" }, h("figcaption", {}, title), svg);
}

export const temperatures = (parts, points) => upright("Temperature along it", parts, points,
    [{ name: "gas", get: (p) => p.gas_c, line: 1 }, { name: "wall inside", get: (p) => p.wall_c, dash: "7 4", line: 2 }, { name: "dew point", get: (p) => p.dew_c, dash: "2 3", line: 4 }], "degC", 235);
export const pressures = (parts, points) => upright("Draught along it", parts, points, [{ name: "below the air outside", get: (p) => p.draught_pa, line: 3 }], "Pa", 190);

export const along_table = (points) => table("Along the flue", [{ head: "from the stove", unit: "m", get: (p) => p.at_m, digits: 3 }, { head: "stretch", get: (p) => p.part, left: true },
    { head: "gas", unit: "°C", get: (p) => p.gas_c, digits: 3 }, { head: "wall inside", unit: "°C", get: (p) => p.wall_c, digits: 3 }, { head: "dew point", unit: "°C", get: (p) => p.dew_c, digits: 3 },
    { head: "draught", unit: "Pa", get: (p) => p.draught_pa, digits: 3 }], points);

// ---- the operating map: each state has a sign of its own beside its colour -------------------------------------------

export const states = [
    { name: "safe", text: "safe", sign: "✓", fill: "#bcd3bf" }, { name: "weak draught", text: "weak draught: smoke may come into the room", sign: "↓", fill: "#e6d9a8" },
    { name: "too little air", text: "too little air: smoke and carbon monoxide", sign: "✕", fill: "#c98a76" }, { name: "wood wasted", text: "wood wasted: too much air or gas too hot", sign: "≈", fill: "#dfbf93" },
    { name: "wet flue", text: "wet flue: wall below the dew point at the top", sign: "≀", fill: "#a9bfd3" }, { name: "does not draw", text: "does not draw", sign: "■", fill: "#8c8f90" },
    { name: "too strong", text: "too strong: the chimney draws more than 19.5 times the air", sign: "↑", fill: "#c9a9c4" }, { name: "not solved", text: "not solved: no balance found", sign: "?", fill: "#f0eeea" },
];
export const state_of = (name) => states.find((x) => x.name === name) ?? { name, text: name, sign: "?", fill: "none" };

/** Outside temperature over the airwash slide; now: {outside_c, share} where the page stands, or null. */
export function map_picture(m, now) {
    const left = 52, w = 22, t = 15, wide = left + w * m.columns + 10, deep = t * m.rows;
    const out_of = (i) => m.outside_low_c + ((m.outside_high_c - m.outside_low_c) * i) / (m.columns - 1), share_of = (k) => m.share_low + ((m.share_high - m.share_low) * k) / (m.rows - 1);
    const count = states.map((st) => m.points.filter((p) => p.state === st.name).length);
    const svg = s("svg", { viewBox: `0 -10 ${wide} ${deep + 60}`, role: "img", class: "chimney map", "aria-label":
        `Operating map: ${states.map((st, i) => (count[i] ? `${st.name} at ${count[i]} of ${m.points.length} points` : "")).filter(Boolean).join(", ")}` });
    m.points.forEach((p, n) => {
        const i = n % m.columns, k = Math.floor(n / m.columns), st = state_of(p.state), x = left + i * w, y = (m.rows - 1 - k) * t;
        const cell = s("g", {}, s("rect", { x, y, width: w + 0.5, height: t + 0.5, fill: st.fill }), text(x + w / 2, y + t / 2 + 4, st.sign, { "text-anchor": "middle", "font-size": 10, fill: "#1b1f21", "fill-opacity": 0.75 }));
        cell.append(s("title", {}, `${number(out_of(i), 3)} °C outside, slide ${number(share_of(k) * 100, 3)} % open: ${st.name}, draught ${number(p.draught_pa, 3)} Pa, excess air ${number(p.lambda, 3)}, ${number(p.output_w / 1000, 3)} kW, flue gas ${number(p.flue_c, 3)} °C`));
        svg.append(cell);
    });
    for (const v of ticks(m.outside_low_c, m.outside_high_c, 9)) svg.append(text(left + ((v - m.outside_low_c) / (m.outside_high_c - m.outside_low_c)) * w * (m.columns - 1) + w / 2, deep + 18, number(v, 3), { "text-anchor": "middle" }));
    for (const v of ticks(m.share_low, m.share_high, 6)) svg.append(text(left - 6, deep - ((v - m.share_low) / (m.share_high - m.share_low)) * t * (m.rows - 1) - t / 2 + 4, `${number(v * 100, 3)} %`, { "text-anchor": "end" }));
    svg.append(text(left, deep + 40, "across: outside temperature, °C"), text(wide - 10, deep + 40, "upwards: airwash slide open", { "text-anchor": "end" }));
    if (now && now.outside_c >= m.outside_low_c && now.outside_c <= m.outside_high_c && now.share >= m.share_low && now.share <= m.share_high)
        svg.append(s("circle", { cx: left + ((now.outside_c - m.outside_low_c) / (m.outside_high_c - m.outside_low_c)) * w * (m.columns - 1) + w / 2,
            cy: deep - ((now.share - m.share_low) / (m.share_high - m.share_low)) * t * (m.rows - 1) - t / 2, r: 9, fill: "none", stroke: "#1b1f21", "stroke-width": 2.5 }));
    return h("figure", { class: "chart" }, h("figcaption", {}, `Stove and chimney over weather and slide, wind ${number(m.wind_pa ?? 0, 3)} Pa`), svg,
        h("ul", { class: "key" }, states.map((st, i) => {
            const swatch = h("i", { "aria-hidden": "true" }, st.sign);
            swatch.style.background = st.fill;
            return count[i] ? h("li", {}, swatch, `${st.text} (${count[i]} of ${m.points.length})`) : null;
        })));
}

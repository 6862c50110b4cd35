// plot.js: curves (uPlot) and two-way maps. Lines differ in dash and name, cells carry their number.
import uPlot from "uplot";
import { h, s } from "./dom.js";
import { number, unit } from "./format.js";
import { mix } from "./colour.js";
import { table } from "./table.js";

const dashes = [[], [7, 4], [2, 3], [10, 3, 2, 3], [4, 2], [12, 5]];

function ink(name) {
    return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}

/** x: {name, unit, values}; lines: {name, unit, values, side?}. */
export function curves(title, x, lines, { height = 260 } = {}) {
    const box = h("div", { class: "plot", role: "img", "aria-label": `${title}. The values stand in the table below it.` });
    const host = h("figure", { class: "chart" }, h("figcaption", {}, title), box, value_table(title, x, lines));
    let chart = null, marked = null; // marked: where a moment is drawn in, in x
    const colours = ["--line1", "--line2", "--line3", "--line4", "--line5", "--line6"];
    function draw() {
        if (box.clientWidth === 0) return;
        chart?.destroy();
        const axis = { stroke: ink("--ink2"), grid: { stroke: ink("--rule"), width: 1 }, ticks: { stroke: ink("--rule") }, font: "12px system-ui, sans-serif" };
        const scales = [...new Set(lines.map((l) => l.unit ?? ""))];
        chart = new uPlot({
            width: box.clientWidth, height,
            scales: { x: { time: false } },
            axes: [{ ...axis, label: `${x.name}${x.unit ? `, ${unit(x.unit)}` : ""}`, labelFont: axis.font },
                ...scales.map((u, i) => ({ ...axis, scale: u || "plain", side: i % 2 ? 1 : 3, grid: { ...axis.grid, show: i === 0 },
                    label: unit(u), labelFont: axis.font, size: 58 }))],
            series: [{ label: x.name, value: (_, v) => number(v) }, ...lines.map((l, i) => ({ label: l.name, scale: (l.unit ?? "") || "plain",
                stroke: ink(colours[i % colours.length]), width: 2, dash: dashes[i % dashes.length],
                value: (_, v) => `${number(v)} ${unit(l.unit)}` }))],
            hooks: { draw: [mark] },
        }, [x.values, ...lines.map((l) => l.values)], box);
        tell_moment();
    }
    function mark(u) {
        if (marked === null) return;
        const at = u.valToPos(marked, "x", true), { top, height } = u.bbox;
        u.ctx.save();
        u.ctx.strokeStyle = ink("--ink");
        u.ctx.lineWidth = 2 * devicePixelRatio;
        u.ctx.setLineDash([]);
        u.ctx.beginPath();
        u.ctx.moveTo(at, top);
        u.ctx.lineTo(at, top + height);
        u.ctx.stroke();
        u.ctx.restore();
    }
    /** The legend's values are those of the moment. */
    function tell_moment() {
        if (!chart || marked === null) return;
        const next = x.values.findIndex((v) => v > marked);
        chart.setLegend({ idx: next < 0 ? x.values.length - 1 : Math.max(0, next - 1) });
    }
    host.at = (value) => {
        marked = value;
        tell_moment();
        chart?.redraw(false, false);
    };
    let width = 0;
    new ResizeObserver(() => {
        if (box.clientWidth !== width) {
            width = box.clientWidth;
            draw();
        }
    }).observe(box);
    const shade = new MutationObserver(() => (host.isConnected ? draw() : shade.disconnect()));
    shade.observe(document.documentElement, { attributes: true, attributeFilter: ["data-shade"] });
    return host;
}

function value_table(title, x, lines) {
    const details = h("details", { class: "values" }, h("summary", {}, "Values"));
    details.addEventListener("toggle", () => {
        if (!details.open || details.childElementCount > 1) return;
        const rows = x.values.map((v, i) => [v, ...lines.map((l) => l.values[i])]);
        details.append(table(title, [{ head: x.name, unit: unit(x.unit), get: (r) => r[0] },
            ...lines.map((l, k) => ({ head: l.name, unit: unit(l.unit), get: (r) => r[k + 1] }))], rows));
    });
    return details;
}

/** A map of one quantity over two; rows: [x, y, value]. */
export function two_way(title, x, y, z, rows) {
    const xs = [...new Set(rows.map((r) => r[0]))].sort((a, b) => a - b), ys = [...new Set(rows.map((r) => r[1]))].sort((a, b) => b - a);
    const known = rows.map((r) => r[2]).filter(Number.isFinite), low = Math.min(...known), high = Math.max(...known);
    const w = 60, t = 34, left = 64, foot = 44;
    const svg = s("svg", { viewBox: `0 0 ${left + w * xs.length + 8} ${t * ys.length + foot}`, role: "img", class: "twoway",
        "aria-label": `${title}: from ${number(low)} to ${number(high)} ${unit(z.unit)}; the values stand in the table below it` });
    for (const [a, b, v] of rows) {
        const cx = left + xs.indexOf(a) * w, cy = ys.indexOf(b) * t, share = high > low ? (v - low) / (high - low) : 0.5;
        svg.append(s("rect", { x: cx + 1, y: cy + 1, width: w - 2, height: t - 2, fill: Number.isFinite(v) ? mix(share * 0.9) : "none", stroke: "currentColor", "stroke-opacity": 0.25 }));
        svg.append(s("text", { x: cx + w / 2, y: cy + t / 2 + 4, "text-anchor": "middle", "font-size": 12, fill: Number.isFinite(v) ? (share > 0.62 ? "#fff" : "#1b1f21") : "currentColor" },
            Number.isFinite(v) ? number(v) : "–"));
    }
    xs.forEach((v, i) => svg.append(s("text", { x: left + (i + 0.5) * w, y: t * ys.length + 16, "text-anchor": "middle", "font-size": 12, fill: "currentColor" }, number(v))));
    ys.forEach((v, i) => svg.append(s("text", { x: left - 8, y: (i + 0.5) * t + 4, "text-anchor": "end", "font-size": 12, fill: "currentColor" }, number(v))));
    const axis = (text, at, anchor) => svg.append(s("text", { x: at, y: t * ys.length + 36, "text-anchor": anchor, "font-size": 12, fill: "currentColor" }, text));
    axis(`upwards: ${y.name}${y.unit ? ", " + unit(y.unit) : ""}`, 4, "start");
    axis(`across: ${x.name}${x.unit ? ", " + unit(x.unit) : ""}`, left + w * xs.length, "end");
    svg.style.maxWidth = `${Math.max(320, left + w * xs.length)}px`;
    return h("figure", { class: "chart" }, h("figcaption", {}, title), svg);
}


// stretches.js: the list of a chimney's stretches, to be changed, put in another order, added and taken out. What is changed is a working
// copy of the house's text; the file stays as it is.
import * as api from "./api.js";
import * as state from "./state.js";
import * as lua from "./house_text.js";
import { h, fill, choice, labelled } from "./dom.js";
import { number, unit } from "./format.js";
import { arounds } from "./chimney.js";
import { save } from "./table.js";

const kinds = [{ value: "pipe", text: "connecting pipe" }, { value: "flue", text: "flue" }, { value: "liner", text: "liner in a shaft" }];
/** As the description takes them: docs/description.md. */
const sizes = {
    length: { label: "length", unit: "m", low: 0.01, high: 100, step: 0.05, raw: (v) => `${v}*m`, of: (p) => p.length_m },
    rise: { label: "rise", unit: "m", low: -100, high: 100, step: 0.05, raw: (v) => `${v}*m`, of: (p) => p.rise_m },
    diameter: { label: "diameter", unit: "mm", low: 40, high: 2000, step: 1, raw: (v) => `${v}*mm`, of: (p) => p.width_mm },
    width: { label: "width", unit: "mm", low: 40, high: 2000, step: 1, raw: (v) => `${v}*mm`, of: (p) => p.width_mm },
    depth: { label: "depth", unit: "mm", low: 40, high: 2000, step: 1, raw: (v) => `${v}*mm`, of: (p) => p.depth_mm },
    outer: { label: "outer size", unit: "mm", low: 40, high: 5000, step: 1, raw: (v) => `${v}*mm`, of: (p) => p.outer_mm },
    resistance: { label: "resistance", unit: "m2 K/W", low: 0, high: 20, step: 0.01, raw: (v) => `${v}*m2*K/W`, of: (p) => p.resistance },
};

function wall_of(p) {
    if (p?.layers?.length) return p.layers.map((l) => `${number(l.thickness_mm, 3)} mm ${l.material}`).join(", ");
    return p && Number.isFinite(p.resistance) ? `declared ${number(p.resistance, 3)} ${unit("m2 K/W")}` : "";
}

/** changed() after every change, with what is known at once; parts() gives it. */
export function stretches(app, changed) {
    const rows = h("ol", { class: "stretches", reversed: true }), note = h("p", { class: "hint", role: "status" });
    const back = h("button", { type: "button", class: "quiet", onclick: () => state.change({ house_text: null }) }, "Back to the file");
    const keep = h("button", { type: "button", class: "quiet", onclick: () => save(state.get().house, text(), "text/plain") }, "Save the changed description");
    const area = h("textarea", { rows: 16, spellcheck: false, "aria-label": "Description of the house", onchange: () => put(area.value) });
    const whole = h("details", { class: "values" }, h("summary", {}, "The whole description"), area);
    const host = h("div", { class: "stretch-list" }, rows, note, h("div", { class: "jobpanel" }, back, keep), whole);
    let file = "", file_text = "", described = [], shown = "", chosen = 0, fields = [];

    const text = () => state.get().house_text ?? file_text;
    const blocks = () => lua.parse(text());
    function put(next, hold = null) {
        state.change({ house_text: next === file_text ? null : next }, hold);
        draw();
        changed();
    }
    /** As the text says it where it says it in figures, else as the last answer had it. */
    function parts() {
        const list = blocks(), whole_text = text(), named = new Map(described.map((p) => [p.name, p]));
        return list.map((b, i) => {
            const name = lua.literal(whole_text, b, "name"), known = named.get(name) ?? (list.length === described.length ? described[i] : null) ?? {};
            const size = (field, key, scale) => lua.literal(whole_text, b, field, scale) ?? known[key];
            const length_m = size("length", "length_m", "m"), diameter = size("diameter", "width_mm", "mm");
            return { ...known, name: name ?? known.name ?? `stretch ${i + 1}`, kind: b.kind, length_m, rise_m: size("rise", "rise_m", "m") ?? length_m,
                round: lua.has(b, "diameter"), width_mm: lua.has(b, "diameter") ? diameter : size("width", "width_mm", "mm"), depth_mm: lua.has(b, "diameter") ? diameter : size("depth", "depth_mm", "mm"),
                outer_mm: size("outer", "outer_mm", "mm"), around: lua.literal(whole_text, b, "around") ?? known.around ?? "heated" };
        });
    }
    /** Each stretch stands in the text as itself: not made by a sum, a loop or a choice. */
    function plain() {
        const list = blocks(), whole_text = text();
        return list.length > 0 && list.every((b) => lua.literal(whole_text, b, "name") !== null) && (state.get().house_text !== null || described.length === 0 || list.length === described.length);
    }

    function number_field(i, field) {
        const f = sizes[field], id = `stretch-${i}-${field}`, warn = h("span", { class: "warn", role: "alert" });
        const input = h("input", { type: "number", id, min: f.low, max: f.high, step: f.step, oninput: () => {
            const v = Number(input.value), good = input.value !== "" && v >= f.low && v <= f.high;
            input.setAttribute("aria-invalid", String(!good));
            warn.textContent = good ? "" : `${number(f.low)} to ${number(f.high)} ${unit(f.unit)}`;
            if (good) put(lua.set_field(text(), i, field, f.raw(v)), id);
        }, onchange: state.let_go });
        fields.push({ input, value: (p) => f.of(p) });
        return h("label", { class: "choice" }, h("span", {}, `${f.label}, ${unit(f.unit)}`), input, warn);
    }
    const fresh_name = (stem) => {
        const used = new Set(parts().map((p) => p.name)), root = stem.replace(/ \d+$/, "");
        for (let k = 2; ; k++) if (!used.has(`${root} ${k}`)) return `${root} ${k}`;
    };
    function row(b, i, list) {
        const act = (label, possible, work) => h("button", { type: "button", class: "quiet", disabled: !possible, "aria-label": `${label}: stretch ${i + 1}`, onclick: work }, label);
        const name = h("input", { type: "text", maxLength: 80, onchange: () => name.value.trim() && put(lua.set_field(text(), i, "name", lua.quoted(name.value.trim()))) });
        fields.push({ input: name, value: (p) => p.name });
        const kind = choice("kind", kinds, b.kind, (v) => put(lua.set_kind(text(), i, v)));
        const around = choice("stands in", Object.entries(arounds).map(([value, words]) => ({ value, text: words })), "", (v) => put(lua.set_field(text(), i, "around", lua.quoted(v))));
        fields.push({ input: around.querySelector("select"), value: (p) => p.around });
        const wall = h("span", { class: "hint" });
        fields.push({ text: wall, value: (p) => (wall_of(p) ? `Wall: ${wall_of(p)}` : "") });
        const measures = ["length", ...(b.kind === "pipe" || lua.has(b, "rise") ? ["rise"] : []), ...(lua.has(b, "diameter") ? ["diameter"] : ["width", "depth"]),
            ...["outer", "resistance"].filter((f) => lua.has(b, f))];
        const fits = (k) => list[k] && (list[k].kind === "pipe") === (b.kind === "pipe"), chimneys = list.filter((x) => x.kind !== "pipe").length;
        return h("li", { class: "stretch-row", "data-index": i, onfocusin: () => choose(i) }, h("h3", {}, `${i + 1}`), h("div", { class: "fields" }, labelled("name", name), kind, around, measures.map((f) => number_field(i, f))), wall,
            h("div", { class: "acts" }, act("Higher", fits(i + 1), () => put(lua.swap(text(), i))), act("Lower", fits(i - 1), () => put(lua.swap(text(), i - 1))),
                act("Add one above", list.length < 40, () => put(lua.copy(text(), i, fresh_name(parts()[i].name)))),
                act("Take out", list.length > 1 && (b.kind === "pipe" || chimneys > 1), () => put(lua.remove(text(), i)))));
    }
    function choose(i) {
        if (chosen === i) return;
        chosen = i;
        mark();
        changed();
    }
    const mark = () => [...rows.children].forEach((li) => li.classList.toggle("chosen", Number(li.dataset.index) === chosen));
    function draw() {
        const list = blocks(), good = plain(), key = JSON.stringify([good, list.map((b) => [b.kind, b.fields.map((f) => f.name)])]);
        if (key !== shown) {
            shown = key;
            fields = [];
            const by_row = list.map((b, i) => row(b, i, list));
            fill(rows, good ? by_row.reverse() : []);
            mark();
        }
        const now = parts();
        let at = -1;
        for (const f of fields) {
            if (f.input?.type === "text") at += 1; // the name is the first field of each stretch
            const v = now[at] ? f.value(now[at]) : "";
            if (f.text) f.text.textContent = v;
            else if (document.activeElement !== f.input) f.input.value = typeof v === "number" ? Number(v.toFixed(4)) : v ?? "";
        }
        if (document.activeElement !== area) area.value = text();
        back.disabled = keep.disabled = state.get().house_text === null;
        note.textContent = !good && text() ? "This house makes its stretches by sums or choices: change the description itself, below, or its parameters on the page Design."
            : state.get().house_text === null ? "As the file has it. What you change here is a working copy; it stays in the address and in kept variants." : "Changed: a working copy, not the file.";
    }
    async function load() {
        const name = state.get().house, about = app.project?.files?.find((f) => f.name === name), key = `${name} ${about?.changed}`;
        if (!name || key === file) return;
        file = key;
        try {
            file_text = await api.house_text(name);
        } catch (error) {
            file = "";
            note.textContent = error.message;
            return;
        }
        draw();
        changed();
    }
    return {
        host, parts, choose,
        chosen: () => chosen,
        show(now) {
            load();
            const list = now.answer?.house?.parts;
            if (list && !now.errors) described = list;
            draw();
        },
    };
}

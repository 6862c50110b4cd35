// log_stock.js: what stoves are made of and in which batches: designs, batches, serial numbers, sheets, remnants in stock, capability.
import * as api from "../api.js";
import * as entries from "../entries.js";
import { h, fill } from "../dom.js";
import { amount, fault_list, outcome, read_fields, record_form, slot, who_slot } from "../record_form.js";
import { table } from "../table.js";
import { record_table } from "../record_table.js";

const number_of = (stem, i, width) => `${stem}${String(i).padStart(width, "0")}`;

/** S-0007 and 3 give S-0007, S-0008, S-0009. */
export function serials_from(first, count) {
    const [, stem, digits] = first.match(/^(.*?)(\d+)$/) ?? [];
    return digits === undefined ? (count === 1 ? [first] : []) : Array.from({ length: count }, (_, i) => number_of(stem, Number(digits) + i, digits.length));
}

/** Design, batch and serial numbers in one go, from the description on the page. */
function batch_form(desk, on_done) {
    const s = desk.app.state.get(), who = who_slot(), result = outcome(), text = (name, label, note, more = {}) => slot({ name, label, note, needed: true, control: h("input", { type: "text", autocomplete: "off", ...more }) });
    const parts = [text("design", "Design", `name of this version of ${s.stove}, e.g. A-3; the file is kept word for word`), text("batch", "Batch", "name, e.g. B-7"),
        text("count", "Stoves", "how many", { inputMode: "numeric", value: s.batch ?? 1 }), text("first", "First serial number", "e.g. S-0001; the others follow")];
    const [design, batch, count, first] = parts;
    const set = Object.entries(s.set).map(([k, v]) => `${k}=${v}`).join(" ");
    return h("form", { class: "record", noValidate: true, "aria-label": "New batch of the design on the page", onsubmit: async (e) => {
        e.preventDefault();
        result.clear();
        if (!read_fields([], [...parts, who])) return;
        const n = amount(count.control.value), numbers = Number.isInteger(n) && n > 0 && n <= 400 ? serials_from(first.control.value.trim(), n) : [];
        count.warn(Number.isInteger(n) && n > 0 && n <= 400 ? "" : "must be a whole number from 1 to 400");
        first.warn(numbers.length ? "" : "must end in a number, so that the others can follow");
        if (!numbers.length) return;
        const names = { design: design.control.value.trim(), batch: batch.control.value.trim() };
        const known = await api.log_list("design", { name: names.design, all: 1 }).then((a) => a.records.length > 0, () => false);
        const told = await entries.enter([...(known ? [] : [{ kind: "design", records: [{ name: names.design, part: "stove", text: { file: s.stove }, ...(set ? { settings: set } : {}) }] }]),
            { kind: "batch", records: [{ name: names.batch, design: names.design, stoves: n }] }, { kind: "serial", records: numbers.map((number) => ({ number, batch: names.batch })) }], who.control.value.trim(), names.batch);
        result.show(told, `${n} ${n === 1 ? "stove" : "stoves"}: ${numbers[0]}${n > 1 ? ` to ${numbers.at(-1)}` : ""}.`);
        on_done();
    } }, parts.map((p) => p.box), who.box, h("div", { class: "saves" }, h("button", { type: "submit", class: "go" }, "Start the batch")), result.host);
}

export function stock(desk) {
    const lists = h("div", {});
    const load = async () => {
        const kind = (name) => desk.kinds.find((k) => k.name === name), list = async (name) => record_table(kind(name), (await api.log_list(name, { most: 200 })).records);
        try {
            const remnants = (await api.log_stock()).stock, { capability } = await api.log_stats();
            fill(lists, await list("batch"), await list("design"), await list("sheet"),
                table("Remnants in stock", [{ head: "name", get: (r) => r.name }, { head: "material", get: (r) => r.material }, { head: "thickness", unit: "mm", get: (r) => r.thickness_mm }, { head: "length", unit: "mm", get: (r) => r.length_mm },
                    { head: "width", unit: "mm", get: (r) => r.width_mm }, { head: "sheet", get: (r) => r.sheet }, { head: "heat", get: (r) => r.heat }, { head: "place", get: (r) => r.place }], remnants, { empty: "none is in stock." }),
                table("Capability of what was measured", [{ head: "feature", get: (c) => c.feature }, { head: "batch", get: (c) => c.batch }, { head: "readings", get: (c) => c.count }, { head: "outside", get: (c) => c.outside },
                    { head: "mean", get: (c) => c.mean }, { head: "sigma", get: (c) => c.sigma, digits: 3 }, { head: "low", get: (c) => c.low }, { head: "high", get: (c) => c.high }, { head: "Cpk", get: (c) => c.cpk, digits: 3 }, { head: "unit", get: (c) => c.unit }],
                capability, { empty: "nothing measured yet." }), h("p", { class: "hint" }, "Cpk: the nearer limit's distance from the mean over three sigma (ISO 22514-2, from memory); of few readings it is uncertain."));
        } catch (error) {
            fill(lists, h("div", { class: "notice" }, fault_list(error.errors ?? [{ what: error.message }])));
        }
    };
    const more = (name, text) => h("details", { class: "folder", ontoggle: (e) => e.target.open && e.target.children.length < 2 && e.target.append(record_form(desk.kinds, name, { files: desk.files(), on_done: load })) }, h("summary", {}, text));
    load();
    return { host: h("div", {}, h("details", { class: "folder" }, h("summary", {}, "Start a batch of the design on the page"), batch_form(desk, load)), more("sheet", "Enter a sheet of steel"), more("remnant", "Enter a remnant"), more("move", "Move a remnant into stock or out of it"), lists) };
}

// record_form.js: a form for one kind of record, built from the log's own table of kinds; and the fields other forms of the log share.
import * as api from "./api.js";
import * as entries from "./entries.js";
import { h, fill, fresh_id } from "./dom.js";
import { or_kept } from "./kept.js";
import { unit, words } from "./format.js";

/** A number as people write it, with point or comma; NaN when it is none. */
export function amount(text) {
    const plain = String(text).trim().replace(",", ".");
    return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : NaN;
}

const kind_texts = { firstfire: "first fire", firstfires: "first fires", nonconformity: "non-conformity", nonconformities: "non-conformities" };

/** A kind of record, or its plural, as people write it. */
export const kind_text = (name) => kind_texts[name] ?? words(name);

/** A field's name without the unit it ends in. */
export const field_text = (name) => words(name.replace(/_(mm|pa|s|kg|m3_h)$/, ""));

/** A reading's name without the unit it ends in. */
export const reading_text = (name) => words(String(name).replace(/_(pa|c|percent|ppm)$/, "")).replace("co2", "CO2").replace(/\bco\b/, "CO");

export const plain_time = (iso) => String(iso ?? "").replace("T", " ").replace(/(:\d\d)(:\d\d)?(\.\d+)?Z$/, "$1");

/** Error texts of the server as a list for people. */
export function fault_list(errors) {
    return h("ul", { class: "faults" }, errors.map((e) => h("li", {}, e.where?.line ? `no. ${e.where.line}: ` : "", e.field ? `${words(e.field)}: ` : "", e.what ?? e.text ?? String(e),
        e.remedy ? h("em", {}, ` ${e.remedy}`) : null)));
}

/** A field with its name, its unit, what it means and what is wrong with it. */
export function slot({ name, label, control, mark = "", note = "", needed = false }) {
    const id = fresh_id("slot"), warn = h("span", { class: "warn", role: "alert", id: `${id}-warn` });
    control.id = id;
    control.name = name;
    control.setAttribute("aria-describedby", `${note ? `${id}-note ` : ""}${id}-warn`);
    if (needed) control.required = true;
    const box = h("div", { class: "slot" }, h("label", { htmlFor: id }, label, needed ? h("span", { class: "needed" }, " (needed)") : null),
        h("div", { class: "amount" }, control, mark ? h("span", { class: "unit" }, mark) : null),
        note ? h("span", { class: "note", id: `${id}-note` }, note) : null, warn);
    return { box, control, warn(text) {
        warn.textContent = text;
        control.setAttribute("aria-invalid", String(text !== ""));
    } };
}

/** A text field that offers what is recorded. `load` gives the names. */
export function offered(load, attributes = {}) {
    const id = fresh_id("names"), list = h("datalist", { id });
    const input = h("input", { type: "text", autocomplete: "off", ...attributes });
    input.setAttribute("list", id);
    let names = [];
    const follow = async () => {
        names = await load().catch(() => names);
        fill(list, names.map((n) => h("option", { value: n })));
        return names;
    };
    follow();
    return { input, list, follow, names: () => names };
}

export const names_of = (kind, field) => or_kept(`names.${kind}`, async () => (await api.log_list(kind, { most: 500 })).records.map((r) => r.values[field]));
export const serial_names = () => names_of("serial", "number");

/** Who enters it; remembered on this device. */
export function who_slot() {
    const s = slot({ name: "by", label: "Entered by", needed: true, note: "initials or name; kept on this device", control: h("input", { type: "text", autocomplete: "off", value: entries.who(), maxLength: 80,
        onchange: () => entries.set_who(s.control.value.trim()) }) });
    return s;
}

/** What came of an entry: said aloud, in words and with a sign. */
export function outcome() {
    const host = h("div", { class: "outcome", role: "status" });
    let stop = () => {};
    /** What waited and has gone is told as recorded, if it was. */
    function follow(ids, recorded) {
        stop = entries.listen(() => {
            if (entries.waiting().some((e) => ids.includes(e.id))) return;
            if (ids.every(entries.is_sent)) show({ state: "recorded" }, recorded);
            else clear();
        });
    }
    function clear() {
        stop();
        fill(host);
    }
    function show(result, recorded) {
        stop();
        host.className = `outcome ${result.state}`;
        if (result.state === "recorded") fill(host, h("p", {}, h("b", {}, "✓ Recorded. "), recorded));
        else if (result.state === "waiting") fill(host, h("p", {}, h("b", {}, "… Not recorded yet. "), entries.is_kept() ? "It is kept on this device and sent again by itself; you may close the page."
            : "It is kept while this page is open: leave it open until it is sent."), fault_list(result.errors));
        else fill(host, h("p", {}, h("b", {}, "✕ Not recorded. "), "Nothing was written; mend this and save again:"), fault_list(result.errors));
        if (result.state === "waiting") follow(result.ids ?? [], recorded);
    }
    return { host, clear, show };
}

function control_of(f, files) {
    if (f.type === "choice") return h("select", {}, f.needed ? h("option", { value: "" }, "choose") : null, f.of.split("|").map((w) => h("option", { value: w }, w)));
    if (f.type === "document") return h("select", {}, h("option", { value: "" }, "choose a file"), files.map((n) => h("option", { value: n }, n)));
    if (f.type === "time") return h("input", { type: "date" });
    if (f.type === "number" || f.type === "whole") return h("input", { type: "text", inputMode: f.type === "whole" ? "numeric" : "decimal", autocomplete: "off" });
    if (f.name === "note" || f.name === "found" || f.name === "cause") return h("textarea", { rows: 2 });
    return h("input", { type: "text", autocomplete: "off", maxLength: f.type === "name" ? 80 : 2000 });
}

function name_field_of(kinds, kind) {
    return kinds.find((k) => k.name === kind).fields.find((f) => f.type === "name").name;
}

function one_field(f, kinds, files) {
    const offer = f.type === "link" ? offered(() => names_of(f.of, name_field_of(kinds, f.of))) : null;
    const bounds = f.low === null || f.low === undefined ? "" : `${f.low} to ${f.high}`;
    const s = slot({ name: f.name, label: field_text(f.name), control: offer?.input ?? control_of(f, files), mark: f.unit === "as unit" ? "" : unit(f.unit),
        note: [f.meaning, bounds].filter(Boolean).join("; "), needed: f.needed });
    if (offer) s.box.append(offer.list);
    return { f, s };
}

/** What stands in a field, as the server takes it; undefined = nothing. A fault is shown beside it. */
function value_of({ f, s }) {
    const text = s.control.value.trim(), number = f.type === "number" || f.type === "whole";
    const value = number ? amount(text) : text;
    const wrong = text === "" ? (f.needed ? "is needed" : "") : number && Number.isNaN(value) ? "is no number" :
        number && f.low !== null && (value < f.low || value > f.high) ? `must be from ${f.low} to ${f.high}` : f.type === "whole" && !Number.isInteger(value) ? "must be a whole number" : "";
    s.warn(wrong);
    if (wrong) throw s.control;
    return text === "" ? undefined : f.type === "document" ? { file: text } : value;
}

/** Reads all, shows every fault, goes to the first. NULL = something is wrong. */
export function read_fields(fields, more = []) {
    const values = {}, wrong = [];
    for (const item of [...more.map((s) => ({ f: { name: s.control.name, type: "text", needed: s.control.required }, s })), ...fields]) {
        try {
            const value = value_of(item);
            if (value !== undefined) values[item.f.name] = value;
        } catch (control) {
            wrong.push(control);
        }
    }
    wrong[0]?.focus();
    return wrong.length ? null : values;
}

/** A form for `kind` (of the table). preset: values to begin with. `correct`: the record it replaces. on_done(result, values). */
export function record_form(kinds, name, { preset = {}, correct = null, files = [], on_done = () => {} } = {}) {
    const kind = kinds.find((k) => k.name === name), result = outcome(), who = who_slot();
    const fields = kind.fields.filter((f) => f.type !== "hash" && !(correct && (f.type === "document" || f.type === "name"))).map((f) => one_field(f, kinds, files));
    const why = correct ? slot({ name: "why", label: "Why it is corrected", needed: true, control: h("input", { type: "text", autocomplete: "off" }) }) : null;
    for (const { f, s } of fields) if (preset[f.name] !== undefined && preset[f.name] !== null) s.control.value = f.type === "time" ? String(preset[f.name]).slice(0, 10) : preset[f.name];
    const button = h("button", { type: "submit", class: "go" }, correct ? "Save the correction" : `Save the ${kind_text(name)}`);
    const form = h("form", { class: "record", noValidate: true, "aria-label": correct ? `Correction of ${kind_text(name)} no. ${correct.id}` : `New ${kind_text(name)}`, onsubmit: async (e) => {
        e.preventDefault();
        result.clear();
        const values = read_fields(fields, [who, why].filter(Boolean));
        if (!values || button.disabled) return;
        const { by, why: reason, ...record } = values;
        button.disabled = true;
        const told = correct ? await change("correct", correct, { by, why: reason, values: record }) : await entries.enter([{ kind: name, records: [record] }], by, record.serial ?? record.batch ?? record.name ?? name);
        button.disabled = false;
        for (const { f, s } of fields) s.warn(told.errors?.filter((x) => x.field === f.name && told.state === "refused").map((x) => x.what).join("; ") ?? "");
        result.show(told, `${kind_text(name)} no. ${told.answers?.[0].ids[0] ?? told.id}.`);
        if (told.state !== "refused" && !correct) for (const { f, s } of fields) if (f.type !== "link") s.control.value = "";
        on_done(told, record);
    } }, fields.map(({ s }) => s.box), why?.box, who.box, h("div", { class: "saves" }, button), result.host);
    return form;
}

/** Corrections need an answer at once: another may have corrected the same record. */
export async function change(verb, record, body) {
    try {
        const { id } = await api.log_change(verb, record.kind, record.id, body);
        return { state: "recorded", id };
    } catch (error) {
        return { state: "refused", errors: error.errors ?? [{ what: error.message }] };
    }
}

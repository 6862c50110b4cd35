// log_stoves.js: stoves by number, how each stands, and the whole history of one, where records are corrected by new ones.
import * as api from "../api.js";
import { h, fill, labelled } from "../dom.js";
import { number, unit } from "../format.js";
import { change, fault_list, field_text, kind_text, outcome, plain_time, reading_text, record_form, slot, who_slot } from "../record_form.js";
import { table } from "../table.js";

/** One record in words: what its fields say, names first. */
export function sentence(record, kind) {
    return kind.fields.filter((f) => !["serial", "low", "high", "unit"].includes(f.name) && record.values[f.name] !== null && f.type !== "hash" && f.type !== "document")
        .map((f) => {
            const v = record.values[f.name], mark = f.unit === "as unit" ? record.values.unit : f.unit;
            const said = f.name === "reading" ? reading_text(v) : typeof v === "number" ? `${number(v, 7)} ${unit(mark ?? "")}`.trim() : f.type === "time" ? plain_time(v).slice(0, 10) : v;
            return ["value", "reading", "feature"].includes(f.name) ? said : `${field_text(f.name)}: ${said}`;
        }).join(", ");
}

function limits(record) {
    const { low, high, unit: mark } = record.values;
    if ((low ?? null) === null && (high ?? null) === null) return "";
    const text = (low ?? null) === null ? `at most ${number(high, 7)}` : (high ?? null) === null ? `at least ${number(low, 7)}` : `${number(low, 7)} to ${number(high, 7)}`;
    return ` (${text} ${unit(mark ?? "")})`;
}

function withdrawal(record, on_done) {
    const why = slot({ name: "why", label: "Why it does not hold", needed: true, control: h("input", { type: "text", autocomplete: "off" }) }), who = who_slot(), result = outcome();
    return h("form", { class: "record", noValidate: true, "aria-label": `Withdrawal of ${kind_text(record.kind)} no. ${record.id}`, onsubmit: async (e) => {
        e.preventDefault();
        const told = await change("withdraw", record, { by: who.control.value.trim() || undefined, why: why.control.value.trim() || undefined });
        result.show(told, "The record stays readable and counts no more.");
        if (told.state === "recorded") on_done();
    } }, why.box, who.box, h("div", { class: "saves" }, h("button", { type: "submit", class: "go" }, "Say that it does not hold")), result.host);
}

function entry(record, desk, again) {
    const kind = desk.kinds.find((k) => k.name === record.kind), later = record.corrected_by, form = h("div", {});
    const toggle = (make) => (form.childElementCount ? fill(form) : (fill(form, make()), form.querySelector("input, select, textarea")?.focus()));
    const fresh = () => record_form(desk.kinds, record.kind, { preset: record.values, correct: record, on_done: (told) => told.state === "recorded" && again() });
    const state = record.withdrawn ? "does not hold" : later ? `replaced by no. ${later}` : null;
    return h("li", { class: later || record.withdrawn ? "past" : "" },
        h("p", {}, h("time", { dateTime: record.at }, plain_time(record.at)), " ", h("b", {}, `${kind_text(record.kind)} no. ${record.id}`), " ",
            record.verdict === "outside" || record.values.result === "fail" ? h("span", { class: "badge fails" }, "✕ outside") : record.verdict === "holds" || record.values.result === "pass" ? h("span", { class: "badge holds" }, "✓ holds") : null,
            state ? h("span", { class: "badge unknown" }, ` ↷ ${state}`) : null),
        h("p", { class: "said" }, sentence(record, kind), limits(record)),
        h("p", { class: "hint" }, `by ${record.by}${record.corrects ? `; ${record.withdrawn ? "withdraws" : "corrects"} no. ${record.corrects}: ${record.why}` : ""}`),
        later || record.withdrawn ? null : h("div", { class: "acts" }, h("button", { type: "button", class: "quiet", "aria-label": `Correct ${kind_text(record.kind)} no. ${record.id}`, onclick: () => toggle(fresh) }, "Correct"),
            h("button", { type: "button", class: "quiet", "aria-label": `Withdraw ${kind_text(record.kind)} no. ${record.id}`, onclick: () => toggle(() => withdrawal(record, again)) }, "Withdraw")),
        form);
}

function history_of(serial, desk) {
    const host = h("div", { class: "history" });
    const draw = async (focus) => {
        try {
            const { records } = await api.log_history(serial);
            const head = h("h3", { tabIndex: -1 }, `History of ${serial}`), batch = records.find((r) => r.kind === "serial" && !r.corrected_by)?.values.batch;
            fill(host, head, h("div", { class: "acts" }, [["firstfire", "First fire"], ["inspection", "Inspection"], ["nonconformity", "Non-conformity"], ["service", "Service"]].map(([name, text]) =>
                h("button", { type: "button", class: "quiet", onclick: () => desk.open(name, { serial, batch }) }, `Enter: ${text}`)), h("button", { type: "button", class: "quiet", onclick: () => print() }, "Print")),
            h("ol", { class: "entries" }, records.map((r) => entry(r, desk, () => draw(true)))));
            if (focus) head.focus();
        } catch (error) {
            fill(host, h("div", { class: "notice" }, fault_list(error.errors ?? [{ what: error.message }])));
        }
    };
    draw(true);
    return host;
}

const columns = [
    { head: "number", get: (s) => s.number }, { head: "batch", get: (s) => s.batch },
    { head: "stands", get: (s) => (s.outside ? "✕ outside limits" : s.open ? "△ open" : Object.keys(s.counts).length ? "✓ nothing open" : "– nothing entered") },
    { head: "inspected", get: (s) => s.counts.inspection ?? 0 }, { head: "outside", get: (s) => s.outside }, { head: "to be decided", get: (s) => s.open },
    { head: "first fire", get: (s) => s.counts.firstfire ?? 0, show: (v) => (v ? `${v} ${v === 1 ? "reading" : "readings"}` : "–") }, { head: "service", get: (s) => s.counts.service ?? 0 },
    { head: "since", get: (s) => s.at.slice(0, 10) }, { head: "note", get: (s) => s.note },
];

export function stoves(desk) {
    const told = h("div", { role: "status" }), history = h("div", {}), find = h("input", { type: "search" });
    const ask = async () => {
        try {
            const { serials, more } = await api.log_serials(find.value);
            fill(told, table("Serial numbers, newest first", columns, serials, { pick: (s) => fill(history, history_of(s.number, desk)),
                empty: find.value ? "no stove of this kind." : "no stove is recorded yet: enter a design, a batch and a serial number under “Batches and sheets”." }),
            more ? h("p", { class: "hint" }, "There are more; give a longer part of the number.") : null);
        } catch (error) {
            fill(told, h("div", { class: "notice" }, fault_list(error.errors ?? [{ what: error.message }])));
        }
    };
    const form = h("form", { class: "jobpanel", role: "search", onsubmit: (e) => {
        e.preventDefault();
        ask();
    } }, labelled("Part of a number, batch or note", find), h("button", { type: "submit", class: "go" }, "Find"));
    ask();
    return { host: h("div", {}, form, told, history) };
}

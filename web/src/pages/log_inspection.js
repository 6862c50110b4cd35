// log_inspection.js: measured values against their limits, by the inspection plan of the design on the page, or of one's own.
import * as entries from "../entries.js";
import * as api from "../api.js";
import { h, fill, fresh_id } from "../dom.js";
import * as store from "../kept.js";
import { number, percent, unit, words } from "../format.js";
import { band_text, judge, number_field, read_number, verdict_line } from "../readings.js";
import { offered, outcome, serial_names, slot, who_slot } from "../record_form.js";

const shown_at_first = 12;

/** One row of the plan as a reading; limits already leave room for the gauge. */
const of_plan = (p) => ({ name: `${p.piece}: ${p.feature}`, piece: p.piece, feature: p.feature, low: p.low, high: p.high, unit: p.unit, gauge: p.gauge, sample: p.sample, lot: p.lot, covered: p.covered,
    remedy: "set it aside and enter a non-conformity" });

function plan_row(e, draft, put) {
    const about = fresh_id("limit"), verdict = h("span", { class: "verdict", role: "status" });
    const judge_it = (text) => {
        const value = read_number(text), nonsense = text !== undefined && String(text).trim() !== "" && value === null;
        fill(verdict, nonsense ? h("span", { class: "warn" }, "is no number") : value === null ? null : verdict_line(e, value));
        card.dataset.verdict = value === null ? "" : judge(e, value) ?? "";
    };
    const field = number_field({ value: draft[e.name], label: `${e.name} in ${e.unit}`, described: about, signed: e.low < 0, put: (text) => {
        put(e.name, text);
        judge_it(text);
    } });
    const card = h("li", { class: "reading" }, h("h3", {}, e.piece, h("small", {}, ` ${words(e.feature)}`)),
        h("p", { class: "when", id: about }, h("b", {}, band_text(e)), `; ${e.gauge}; ${e.sample} of ${e.lot} a stove`),
        h("div", { class: "amount" }, field.host, h("span", { class: "unit" }, unit(e.unit))), verdict);
    judge_it(draft[e.name]);
    return card;
}

/** A measurement that is in no plan: its limits are given with it. */
function own_row(row, changed, drop) {
    const text = (name, label, more = {}) => h("label", { class: "choice" }, h("span", {}, label), h("input", { type: "text", autocomplete: "off", value: row[name] ?? "", oninput: (e) => {
        row[name] = e.target.value;
        judge_it();
        changed();
    }, ...more }));
    const verdict = h("span", { class: "verdict", role: "status" }), digits = { inputMode: "decimal" };
    const judge_it = () => {
        const value = read_number(row.value), e = { low: read_number(row.low), high: read_number(row.high), unit: row.unit ?? "" };
        fill(verdict, value === null ? null : verdict_line(e, value));
    };
    judge_it();
    return h("li", { class: "reading own" }, text("feature", "what was measured"), text("value", "value", digits), text("low", "least allowed", digits), text("high", "most allowed", digits), text("unit", "unit"), text("gauge", "with what"), verdict,
        h("button", { type: "button", class: "quiet", onclick: drop }, "Drop this row"));
}

/** What is filled in, as records; the first fault is told instead. */
function records_of(plan, draft, serial, note) {
    const own = (draft.own ?? []).filter((r) => Object.values(r).some((v) => String(v).trim()));
    for (const e of plan) if (String(draft[e.name] ?? "").trim() && read_number(draft[e.name]) === null) return { fault: `${e.name}: “${draft[e.name]}” is no number` };
    for (const r of own) {
        const wrong = ["value", "low", "high"].find((k) => String(r[k] ?? "").trim() && read_number(r[k]) === null);
        if (wrong) return { fault: `${r.feature || "own measurement"}: “${r[wrong]}” is no number` };
        if (!r.feature?.trim() || read_number(r.value) === null) return { fault: "a row of one's own needs what was measured and its value" };
    }
    const rest = note ? { note } : {};
    return { records: [...plan.filter((e) => read_number(draft[e.name]) !== null).map((e) => ({ serial, feature: e.name, value: read_number(draft[e.name]), low: e.low ?? undefined, high: e.high ?? undefined, unit: e.unit, gauge: e.gauge, ...rest })),
        ...own.map((r) => ({ serial, feature: r.feature.trim(), value: read_number(r.value), low: read_number(r.low) ?? undefined, high: read_number(r.high) ?? undefined, unit: r.unit?.trim() || undefined, gauge: r.gauge?.trim() || undefined, ...rest }))] };
}

export function inspection(desk) {
    const draft_name = `inspection.${desk.app.state.get().stove}`, plan_name = `plan.${desk.app.state.get().stove}`, draft = entries.draft(draft_name), result = outcome(), who = who_slot();
    const serials = offered(serial_names, { class: "big", value: desk.preset.serial ?? draft.serial ?? "" }), serial = slot({ name: "serial", label: "Serial number", control: serials.input, needed: true });
    const note = slot({ name: "note", label: "Note", control: h("textarea", { rows: 2, value: draft.note ?? "" }) });
    const cards = h("ol", { class: "readings" }), own = h("ol", { class: "readings" }), told = h("p", { class: "hint" }), more = h("button", { type: "button", class: "quiet" }), sum = h("p", { class: "sum", role: "status" });
    const find = h("input", { type: "search", oninput: () => draw_plan() });
    const title = () => desk.app.project?.files.find((f) => f.name === desk.app.state.get().stove)?.title || desk.app.state.get().stove;
    let plan = [], drawn = "", all = false;
    serial.box.append(serials.list);
    const count = () => (sum.textContent = `${plan.filter((e) => read_number(draft[e.name]) !== null).length + (draft.own ?? []).filter((r) => read_number(r.value) !== null).length} measurements entered.`);
    const keep = () => {
        entries.keep_draft(draft_name, draft);
        result.clear();
        count();
    };
    const put = (name, text) => {
        if (text === "") delete draft[name];
        else draft[name] = text;
        keep();
    };
    serials.input.addEventListener("input", () => put("serial", serials.input.value));
    note.control.addEventListener("input", () => put("note", note.control.value));
    more.addEventListener("click", () => {
        all = !all;
        draw_plan();
    });
    function draw_plan() {
        const wanted = plan.filter((e) => e.name.toLowerCase().includes(find.value.toLowerCase())), shown = all || find.value ? wanted : wanted.slice(0, shown_at_first);
        fill(cards, shown.map((e) => plan_row(e, draft, put)));
        more.hidden = Boolean(find.value) || plan.length <= shown_at_first;
        more.textContent = all ? `Show the ${shown_at_first} most telling` : `Show all ${plan.length}`;
        const last = shown.at(-1);
        told.textContent = plan.length ? `Inspection plan of ${title()}, most telling first; ${shown.length} of ${plan.length} shown${last && !find.value ? `, which explain ${percent(last.covered)} of what varies` : ""}. Only what is filled in is saved.` : "";
        count();
    }
    function draw_own() {
        fill(own, (draft.own ?? []).map((row, i) => own_row(row, keep, () => {
            draft.own.splice(i, 1);
            keep();
            draw_own();
        })));
    }
    const add = h("button", { type: "button", class: "quiet", onclick: () => {
        draft.own = [...(draft.own ?? []), {}];
        draw_own();
        own.lastElementChild.querySelector("input").focus();
    } }, "Add a measurement of your own");
    async function save(e) {
        e.preventDefault();
        const number_text = serials.input.value.trim(), by = who.control.value.trim();
        for (const [s, v] of [[serial, number_text], [who, by]]) s.warn(v ? "" : "is needed");
        const missing = [[serial, number_text], [who, by]].find(([, v]) => !v);
        if (missing) return missing[0].control.focus();
        const { records, fault } = records_of(plan, draft, number_text, note.control.value.trim());
        if (fault || !records.length) return result.show({ state: "refused", errors: [{ what: fault ?? "nothing is measured yet" }] });
        button.disabled = true;
        const answer = await entries.enter([{ kind: "inspection", records }], by, number_text);
        button.disabled = false;
        if (answer.state !== "refused") {
            for (const k of Object.keys(draft)) if (k !== "serial") delete draft[k];
            note.control.value = "";
            entries.keep_draft(draft_name, draft);
            draw_plan();
            draw_own();
        }
        const outside = answer.answers?.[0].verdicts.filter((v) => v === "outside").length ?? 0;
        result.show(answer, [`${records.length} ${records.length === 1 ? "measurement" : "measurements"} of ${number_text}. `, outside ? h("b", {}, `✕ ${outside} outside ${outside === 1 ? "its limits" : "their limits"}. `) : "✓ None outside its limits."]);
        if (outside) result.host.append(h("button", { type: "button", class: "quiet", onclick: () => desk.open("nonconformity", { serial: number_text, what: records.filter((r, i) => answer.answers[0].verdicts[i] === "outside").map((r) => `${r.feature} ${number(r.value)} ${r.unit ?? ""}`).join("; ") }) }, "Enter a non-conformity"));
        return result.host.scrollIntoView({ block: "nearest" });
    }
    const button = h("button", { type: "submit", class: "go" }, "Save the inspection");
    const host = h("form", { class: "record", noValidate: true, "aria-label": "Inspection", onsubmit: save }, serial.box, told, h("label", { class: "choice" }, h("span", {}, "Find a piece or feature of the plan"), find), cards, more, h("h3", {}, "Measured besides the plan"), own, add, note.box, who.box,
        h("div", { class: "saves" }, sum, button), result.host);
    draw_own();
    return { host, show(now) {
        const fresh = now.answer?.shop?.fit?.inspection, list = fresh ?? (api.is_there() ? null : store.kept(plan_name)?.value) ?? [], key = JSON.stringify(list);
        if (key === drawn) return;
        drawn = key;
        if (fresh?.length) store.keep(plan_name, fresh);
        plan = list.map(of_plan);
        draw_plan();
        if (!plan.length) told.textContent = "No inspection plan yet: it follows from the study of fit, which is being computed or needs its files; a measurement of your own can be entered at once.";
    } };
}

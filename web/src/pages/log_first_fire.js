// log_first_fire.js: the record of the first fire, for the phone in the fitter's hand: what to read when, what it should be in this
// house, judged at once. A draft stays on the device until it is saved; a saved one until the server has it.
import * as entries from "../entries.js";
import * as api from "../api.js";
import { h, fill, fresh_id } from "../dom.js";
import { keep, kept } from "../kept.js";
import { unit } from "../format.js";
import { band_text, judge, number_field, read_number, verdict_line } from "../readings.js";
import { names_of, offered, outcome, plain_time, reading_text as short, serial_names, slot, who_slot } from "../record_form.js";

function yes_no(e, draft, put, described) {
    const name = fresh_id("answer");
    return h("div", { class: "yesno", role: "radiogroup", "aria-label": short(e.name), "aria-describedby": described }, [[1, "Yes"], [0, "No"]].map(([value, text]) =>
        h("label", {}, h("input", { type: "radio", name, value, checked: draft === String(value), onchange: () => put(String(value)) }), h("span", {}, text))));
}

/** One reading: what, when, how much is expected, the field, the verdict; a note where it does not hold. */
function reading_card(e, draft, put) {
    const about = fresh_id("when"), verdict = h("p", { class: "verdict", role: "status" }), key = `note.${e.name}`;
    const note = h("label", { class: "choice" }, h("span", {}, "what was found or done"), h("textarea", { rows: 2, value: draft[key] ?? "", oninput: (x) => put(key, x.target.value) }));
    const judge_it = (text) => {
        const value = read_number(text), nonsense = text !== undefined && String(text).trim() !== "" && value === null;
        fill(verdict, nonsense ? h("span", { class: "warn" }, "is no number") : value === null ? null : verdict_line(e, value));
        card.dataset.verdict = value === null ? "" : judge(e, value) ?? "";
        note.hidden = value === null || ["holds", null].includes(judge(e, value)) && !draft[key];
    };
    const take = (text) => {
        put(e.name, text);
        judge_it(text);
    };
    const field = e.yes_no ? yes_no(e, draft[e.name], take, about) : number_field({ value: draft[e.name], label: `${short(e.name)}${e.unit ? ` in ${e.unit}` : ""}`, described: about, signed: e.unit === "Pa", put: take });
    const card = h("li", { class: "reading" }, h("h3", {}, short(e.name)), h("p", { class: "when", id: about }, e.when, ". ", h("b", {}, band_text(e))),
        e.yes_no ? field : h("div", { class: "amount" }, field.host, h("span", { class: "unit" }, unit(e.unit))), verdict, note,
        e.source ? h("details", { class: "source" }, h("summary", {}, "source"), e.source) : null);
    judge_it(draft[e.name]);
    return card;
}

/** What the chimney's study says of the house, for its record. */
function house_record(now) {
    const flue = (now.answer?.findings ?? []).filter((f) => f.study === "flue").map((f) => f.verdict), worst = ["fails", "watch", "unknown", "holds"].find((v) => flue.includes(v)) ?? "unknown";
    const reserve = now.answer?.house?.flue?.reserve_pa;
    return { flue: worst, ...(Number.isFinite(reserve) ? { reserve_pa: Math.max(-500, Math.min(500, reserve)) } : {}), ...(now.answer?.house?.flue?.designation_needed ? { designation: now.answer.house.flue.designation_needed } : {}) };
}

function records_of(expected, draft, serial, house) {
    return expected.filter((e) => read_number(draft[e.name]) !== null).map((e) => ({ serial, house, reading: e.name, value: read_number(draft[e.name]),
        low: e.yes_no ? e.expected : e.low ?? undefined, high: e.yes_no ? e.expected : e.high ?? undefined, unit: e.unit || undefined, note: draft[`note.${e.name}`]?.trim() || undefined }));
}

export function first_fire(desk) {
    const house_file = desk.app.state.get().house, draft_name = `firstfire.${house_file}`, draft = entries.draft(draft_name);
    const serials = offered(serial_names, { class: "big", value: desk.preset.serial ?? draft.serial ?? "" }), houses = offered(() => names_of("house", "name"), { class: "big", value: draft.house ?? "" });
    const serial = slot({ name: "serial", label: "Serial number on the plate", control: serials.input, needed: true }), house = slot({ name: "house", label: "House", control: houses.input, needed: true,
        note: "as it stands in the log; a new one is recorded with the chimney's answer" });
    const who = who_slot(), cards = h("ol", { class: "readings" }), sum = h("p", { class: "sum", role: "status" }), result = outcome(), host = h("div", { class: "firstfire" });
    serial.box.append(serials.list);
    house.box.append(houses.list);
    let expected = [], drawn = "", bands = null; // {list, name, record} of this house, computed or kept
    const count = () => {
        const verdicts = expected.map((e) => [e, read_number(draft[e.name])]).filter(([, v]) => v !== null).map(([e, v]) => judge(e, v));
        const of = (v) => verdicts.filter((x) => x === v).length;
        sum.textContent = `${verdicts.length} of ${expected.length} entered: ✓ ${of("holds") + of(null)} hold, △ ${of("watch")} outside, ✕ ${of("fails")} do not hold.`;
    };
    const put = (name, text) => {
        if (text === "") delete draft[name];
        else draft[name] = text;
        entries.keep_draft(draft_name, draft);
        result.clear();
        count();
    };
    serials.input.addEventListener("input", () => put("serial", serials.input.value));
    houses.input.addEventListener("input", () => put("house", houses.input.value));
    const clear = () => {
        for (const k of Object.keys(draft)) if (!["serial", "house"].includes(k)) delete draft[k];
        entries.keep_draft(draft_name, {});
        drawn = "";
        draw();
    };
    async function save(e) {
        e.preventDefault();
        const number_text = serials.input.value.trim(), house_text = houses.input.value.trim(), by = who.control.value.trim();
        for (const [s, v] of [[serial, number_text], [house, house_text], [who, by]]) s.warn(v ? "" : "is needed");
        const readings = records_of(expected, draft, number_text, house_text), missing = [[serial, number_text], [house, house_text], [who, by]].find(([, v]) => !v);
        if (missing) return missing[0].control.focus();
        if (!readings.length) return result.show({ state: "refused", errors: [{ what: "no reading is entered yet" }] });
        button.disabled = true;
        const names = await houses.follow();
        const told = await entries.enter([...(names.includes(house_text) ? [] : [{ kind: "house", records: [{ name: house_text, ...bands.record }], unless_there: "name" }]), { kind: "firstfire", records: readings }], by, number_text);
        button.disabled = false;
        if (told.state !== "refused") clear();
        result.show(told, `${readings.length} readings of ${number_text} in ${house_text}.`);
        result.host.scrollIntoView({ block: "nearest" });
    }
    const button = h("button", { type: "submit", class: "go" }, "Save the first-fire record");
    const form = h("form", { class: "record", noValidate: true, "aria-label": "First-fire record", onsubmit: save }, serial.box, house.box, cards, who.box, h("div", { class: "saves" }, sum, button), result.host);
    function draw() {
        const key = JSON.stringify(bands.list);
        if (key === drawn) return;
        drawn = key;
        expected = bands.list;
        fill(cards, expected.map((e) => reading_card(e, draft, put)));
        count();
    }
    const bands_name = `bands.${desk.app.state.get().stove}.${house_file}`, hint = h("p", { class: "hint" });
    function find_bands(now) {
        const house = now.answer?.house, list = house?.site?.first_fire;
        if (list && now.answer !== bands?.answer) {
            bands = { answer: now.answer, list, name: house.name, record: house_record(now), at: null };
            keep(bands_name, { list, name: house.name, record: bands.record });
        } else if (!list && !bands && !api.is_there()) {
            const old = kept(bands_name);
            if (old) bands = { ...old.value, at: old.at };
        }
        return bands;
    }
    return { host, show(now) {
        const why = !desk.app.state.get().house ? "Choose the house at the top: what a first fire should read follows from its chimney." : now.errors ? "The house is not computed; see the findings." : now.answer?.house?.why_not ?? "Being computed.";
        if (find_bands(now)) {
            hint.textContent = `Expected bands of ${bands.name} with the stove on the page${bands.at ? `, as computed on ${plain_time(bands.at)}` : ""}. Only what is filled in is saved.`;
            if (form.parentElement !== host) fill(host, hint, form);
            draw();
        } else if (!expected.length) fill(host, h("p", { class: "notice" }, why));
    } };
}

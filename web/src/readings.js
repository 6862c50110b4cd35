// readings.js: a number or a yes/no against what is expected of it, judged as the command line judges it (site --record).
import { h } from "./dom.js";
import { number, unit } from "./format.js";
import { amount } from "./record_form.js";

const none = (v) => v === null || v === undefined;

/** "holds", "watch" (outside the band) or "fails" (beyond where to stop); null = nothing to judge by. */
export function judge(e, value) {
    if (e.yes_no) return value === e.expected ? "holds" : "fails";
    if (none(e.low) && none(e.high)) return null;
    const least = e.stop_low ?? e.low, most = e.stop_high ?? e.high;
    if ((!none(least) && value < least) || (!none(most) && value > most)) return "fails";
    return (!none(e.low) && value < e.low) || (!none(e.high) && value > e.high) ? "watch" : "holds";
}

export function band_text(e) {
    const mark = unit(e.unit), digits = 7; // a limit is shown as it is judged
    if (e.yes_no) return e.expected ? "must be yes" : "must be no";
    if (!none(e.low) && !none(e.high)) return `${number(e.low, digits)} to ${number(e.high, digits)} ${mark}`;
    if (!none(e.high)) return `at most ${number(e.high, digits)} ${mark}`;
    if (!none(e.low)) return `at least ${number(e.low, digits)} ${mark}`;
    return none(e.expected) ? "free" : `computed ${number(e.expected, digits)} ${mark}, for comparison`;
}

const said = { holds: ["✓", "holds"], watch: ["△", "outside what is expected"], fails: ["✕", "does not hold"] };

/** The verdict in sign and words. */
export function verdict_line(e, value) {
    const verdict = judge(e, value);
    if (verdict === null) return h("span", {}, "· noted");
    return h("span", { class: `badge ${verdict}` }, h("span", { "aria-hidden": "true" }, said[verdict][0]), ` ${said[verdict][1]}`, verdict === "holds" || !e.remedy ? "" : `: ${e.remedy}`);
}

/** A number field that takes point or comma; its sign has a key of its own, for phones show none. */
export function number_field({ value, label, described, signed, put }) {
    const input = h("input", { type: "text", class: "big", inputMode: "decimal", autocomplete: "off", enterKeyHint: "next", value: value ?? "", "aria-label": label, "aria-describedby": described, oninput: () => put(input.value) });
    const flip = signed ? h("button", { type: "button", class: "quiet sign", "aria-label": `${label}: other sign`, onclick: () => {
        input.value = input.value.startsWith("-") ? input.value.slice(1) : `-${input.value}`;
        put(input.value);
        input.focus();
    } }, "±") : null;
    return { input, host: [flip, input] };
}

/** What a draft holds for a reading: a number, or null when nothing or nonsense is there. */
export function read_number(text) {
    const value = text === undefined || String(text).trim() === "" ? NaN : amount(text);
    return Number.isNaN(value) ? null : value;
}

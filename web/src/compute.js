// compute.js: keeps the answer in step with the design. While a slider moves, one quick question is in flight and the
// newest design waits; at rest the remaining studies follow. Parts not yet recomputed are marked, never shown as new.
import * as api from "./api.js";
import * as state from "./state.js";

const rest_ms = 250, quick_most_ms = 130;
const quick_studies = [["heft", "burn"], ["heft"]]; // the second when the first is too slow on this machine
const full_studies = ["heft", "burn", "house", "form", "join", "coat", "fittings", "lift"];
const slow_studies = ["fit"];

export const now = { answer: null, old: new Set(), errors: null, took_ms: 0, first: null, whole: false, busy: false };
const listeners = new Set();
export const listen = (f) => (listeners.add(f), () => listeners.delete(f));
const tell = () => listeners.forEach((f) => f(now));

let turn = 0; // counts designs; an answer to an older one is still shown while dragging, but never as whole
let quick_one = null; // settles when the quick answer that is asked for has come
let in_flight = false, again = false, timer = 0, stop = null, quick_ms = 0, shown_for = "", first = null;
const picture_most_ms = 150; // so long figures and picture make way for each other, no longer

/** The newer answer over the older one; what the newer did not look at stays, and is named in `old`. */
export function merge(older, newer) {
    if (!older) return { answer: newer, old: new Set() };
    const looked = new Set(newer.findings.map((f) => f.study));
    const kept = older.findings.filter((f) => !looked.has(f.study));
    const rank = { fails: 0, watch: 1, unknown: 2, holds: 3 };
    const findings = [...newer.findings, ...kept]
        .sort((a, b) => rank[a.verdict] - rank[b.verdict] || (a.margin ?? 0) - (b.margin ?? 0));
    const verdicts = { fails: 0, watch: 0, unknown: 0, holds: 0 };
    for (const f of findings) verdicts[f.verdict] += 1;
    const shop = { ...older.shop };
    for (const [k, v] of Object.entries(newer.shop ?? {})) if (v) shop[k] = v;
    return {
        answer: { ...newer, findings, verdicts, shop, masses: newer.masses ?? older.masses,
            burning: newer.burning ?? older.burning, house: newer.house ?? older.house },
        old: new Set(kept.map((f) => f.study)),
    };
}

function take(newer, of_turn, replaces) {
    if (replaces || !now.answer) now.answer = null;
    const merged = merge(now.answer, newer);
    now.answer = merged.answer;
    now.old = of_turn.fresh ? new Set([...merged.old].filter((s) => !of_turn.fresh.has(s))) : merged.old;
    now.errors = null;
    now.first ??= merged.answer;
    if (!now.first.burning && merged.answer.burning) now.first = { ...merged.answer };
}

async function ask(studies, of_turn) {
    stop = new AbortController();
    const answer = await api.compute(state.design(), studies, stop.signal);
    if (of_turn.key !== file_key()) return null;
    return answer;
}

function file_key() {
    const s = state.get();
    return [s.stove, s.works, s.house].join("|");
}

function fault(error) {
    if (error.name === "AbortError") return;
    now.errors = error.errors ?? [{ what: error.message }];
    now.whole = false;
}

/** after_picture: a hand moves on, so that the picture goes before the figures; who has waited for an input has both cores free. */
async function quick(after_picture = false) {
    if (in_flight) {
        again = true;
        if (stop && now.slow) stop.abort(); // what runs at rest makes way
        return;
    }
    in_flight = true;
    now.busy = true;
    if (after_picture) await Promise.race([first, new Promise((done) => setTimeout(done, picture_most_ms))]);
    again = false; // the design of this moment is asked for
    const mine = turn, of_turn = { key: file_key(), fresh: null };
    const new_files = of_turn.key !== shown_for;
    try {
        const usual = quick_studies[quick_ms > quick_most_ms && !new_files ? 1 : 0];
        const studies = state.get().page === "house" && state.get().house ? [...usual, "house"] : usual; // what is looked at
        const asked = ask(studies, of_turn);
        quick_one = asked.catch(() => {});
        const answer = await asked;
        if (answer) {
            const weight = studies.length > 1 ? 0.4 : 0;
            quick_ms += ((answer.took_ms ?? 0) - quick_ms) * weight;
            now.took_ms = answer.took_ms ?? 0;
            take(answer, of_turn, new_files);
            shown_for = of_turn.key;
        }
    } catch (error) {
        fault(error);
    }
    in_flight = false;
    now.busy = again;
    tell();
    if (again) {
        again = false;
        quick(true);
    } else if (mine === turn && !now.errors) {
        clearTimeout(timer);
        timer = setTimeout(rest, rest_ms);
    }
}

async function rest() {
    const mine = turn, of_turn = { key: file_key(), fresh: new Set() };
    for (const studies of [full_studies, slow_studies]) {
        if (in_flight || mine !== turn) return;
        in_flight = now.busy = now.slow = true;
        tell();
        try {
            const answer = await ask(studies, of_turn);
            if (answer && mine === turn) {
                for (const f of answer.findings) of_turn.fresh.add(f.study);
                if (studies === full_studies) quick_ms *= 0.9;
                take(answer, of_turn, false);
                now.whole = studies === slow_studies;
                if (studies === slow_studies) now.old = new Set();
            }
        } catch (error) {
            if (studies === full_studies) fault(error);
        }
        in_flight = now.busy = now.slow = false;
        if (again) {
            again = false;
            quick();
            return;
        }
        tell();
        if (now.errors) return;
    }
}

/** picture: settles when the new picture has come and can be drawn; asked for before. */
export function follow(picture = null) {
    turn += 1;
    first = picture;
    now.whole = false;
    clearTimeout(timer);
    quick();
}

/** The figures that are being computed, for who would rather not disturb them; settles soon in any case. */
export const figures_in_hand = () => Promise.race([quick_one, new Promise((done) => setTimeout(done, picture_most_ms))]);

export function forget_first() {
    now.first = null;
}

// entries.js: what was entered and must not get lost. An entry is kept on this device until the server has recorded it; sent again it
// stands once, for it carries the moment it was made. Drafts of forms that are not yet saved are kept here, too.
import * as api from "./api.js";

const waiting_key = "stovewright-log-waiting", draft_key = "stovewright-log-draft.", who_key = "stovewright-log-by";
const again_ms = 15000;
const listeners = new Set();
const results = new Map(); // of what was sent, by the entry's id
let memory = [], keeps = true, sending = null, timer = 0; // memory: when this browser keeps nothing

export const listen = (f) => (listeners.add(f), () => listeners.delete(f));
const tell = () => listeners.forEach((f) => f());

function read(key, other) {
    try {
        return JSON.parse(localStorage.getItem(key)) ?? other;
    } catch {
        return other;
    }
}

function write(key, value) {
    try {
        if (value === null) localStorage.removeItem(key);
        else localStorage.setItem(key, JSON.stringify(value));
        return true;
    } catch {
        return false;
    }
}

/** False: what waits is lost when the page is closed. */
export const is_kept = () => keeps;
export const waiting = () => (keeps ? read(waiting_key, []) : memory);

/** Several pages may have the list: what is stored is the truth, and each change is of one entry. */
function change(f) {
    const list = f(waiting());
    memory = list;
    keeps = write(waiting_key, list);
    tell();
}

export const who = () => read(who_key, "");
export const set_who = (by) => write(who_key, by);

export const draft = (name) => read(draft_key + name, {});
export const keep_draft = (name, values) => write(draft_key + name, Object.keys(values).length ? values : null);

const is_lost = (error) => error.status === undefined || error.status === 0 || error.status === 401 || error.status >= 500;

/** What another device recorded meanwhile, like a house, is not recorded again. */
async function stands_already({ kind, unless_there: name, body }) {
    return name !== undefined && (await api.log_list(kind, { [name]: body.records[0][name] })).records.length > 0;
}

/** What came of it is known before the list is told of it. */
function settle(entry, result, list) {
    results.set(entry.id, result);
    change(list);
}

async function send_one(entry) {
    try {
        const answer = (await stands_already(entry)) ? { kind: entry.kind, ids: [], appended: 0, verdicts: [] } : await api.log_add(entry.kind, entry.body);
        settle(entry, { state: "recorded", answer }, (list) => list.filter((e) => e.id !== entry.id));
    } catch (error) {
        const errors = error.errors ?? [{ what: error.message }];
        settle(entry, { state: is_lost(error) ? "waiting" : "refused", errors },
            (list) => list.map((e) => (e.id === entry.id ? { ...e, errors, refused: !is_lost(error) } : e)));
    }
}

/** Oldest first, for a later one may name what an earlier one recorded; stops at the first that does not arrive. */
async function send_all() {
    for (const entry of waiting().filter((e) => !e.refused)) {
        await send_one(entry);
        if (results.get(entry.id).state === "waiting") break;
    }
    clearTimeout(timer);
    if (waiting().some((e) => !e.refused)) timer = setTimeout(send, again_ms);
}

/** Sends what waits. One round at a time. */
export async function send() {
    while (sending) await sending;
    sending = send_all();
    await sending;
    sending = null;
}

/** Whether this page has sent it. */
export const is_sent = (id) => results.get(id)?.state === "recorded";

export function forget(id) {
    change((list) => list.filter((e) => e.id !== id));
}

export function try_again(id) {
    change((list) => list.map((e) => (e.id === id ? { ...e, refused: false } : e)));
    return send();
}

/** Records, or keeps until it can: then ids are those of what waits. parts: {kind, records, unless_there}, in the order in which one names the other; unless_there: the field by
 *  which the one record is looked for first.
 *  Gives {state: "recorded", answers} or "waiting" or, with what was kept thrown away again, "refused" with errors. */
export async function enter(parts, by, about) {
    const at = new Date().toISOString();
    const mine = parts.map((p, i) => ({ id: `${at}-${i}-${Math.random().toString(36).slice(2)}`, kind: p.kind, unless_there: p.unless_there, about, at, count: p.records.length,
        body: { by, at, records: p.records } }));
    change((list) => [...list, ...mine]);
    await send();
    const refused = mine.map((e) => results.get(e.id)).find((r) => r?.state === "refused");
    if (refused) {
        for (const e of mine) forget(e.id);
        return refused;
    }
    if (mine.some((e) => results.get(e.id)?.state !== "recorded")) return { state: "waiting", ids: mine.map((e) => e.id), errors: waiting().find((e) => e.errors)?.errors ?? [] };
    return { state: "recorded", answers: mine.map((e) => results.get(e.id).answer) };
}

addEventListener("online", () => waiting().length && send());
api.listen((is) => is && !sending && waiting().length && send());
addEventListener("storage", (e) => e.key === waiting_key && tell());
if (waiting().some((e) => !e.refused)) timer = setTimeout(send, 1000);

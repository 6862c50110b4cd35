// api.js: questions to the server this page came from, and to no other.

export class Refused extends Error {
    constructor(status, answer) {
        const first = answer?.error ?? answer?.errors?.[0];
        super(first?.what ?? first?.text ?? `the server answered ${status}`);
        this.status = status;
        this.errors = answer?.errors ?? (first ? [first] : [{ what: this.message }]);
    }
}

// ---- whether the server is there --------------------------------------------------------------------------------------

const listeners = new Set();
let there = true;
export const is_there = () => there;
export const listen = (f) => (listeners.add(f), () => listeners.delete(f));

function note(is) {
    if (is === there) return;
    there = is;
    for (const f of [...listeners]) f(is);
}

/** A server that was started again knows no earlier session; the page's address gives a new one, unless a token is asked for. */
let admitted = null;
const ask_in = () => (admitted ??= fetch("/", { cache: "no-store", credentials: "same-origin" }).catch(() => null).finally(() => (admitted = null)));

async function ask(method, path, body, signal) {
    const options = { method, signal, headers: {}, credentials: "same-origin" };
    if (method !== "GET") options.headers["X-Stovewright"] = "1";
    if (body !== undefined) {
        options.headers["Content-Type"] = "application/json";
        options.body = JSON.stringify(body);
    }
    let reply;
    try {
        reply = await fetch(path, options);
        if (reply.status === 401 && (await ask_in())?.ok) reply = await fetch(path, options);
    } catch (fault) {
        if (fault.name === "AbortError") throw fault;
        note(false);
        throw new Refused(0, { error: { what: "the server does not answer", remedy: "start stovewright serve again" } });
    }
    note(true);
    if (reply.ok) return reply;
    throw new Refused(reply.status, await reply.json().catch(() => null));
}

const json = async (reply) => (await reply).json();

export const project = () => json(ask("GET", "/api/project"));
export const compute = (state, studies, signal) =>
    json(ask("POST", "/api/compute", { ...state, studies }, signal));
/** held: marks of geometry that need not be sent; chord_mm: how coarse arcs may be, undefined = as fine as ever. */
export const picture = async ({ stove, works, set }, held, chord_mm) =>
    (await ask("POST", "/api/picture", { stove, works, set, held, chord_mm })).arrayBuffer();
export const flat = async (state, piece, signal) => (await ask("POST", "/api/flat", { ...state, piece }, signal)).blob();

export const house_text = async (name) => (await ask("GET", `/api/house/${encodeURIComponent(name)}`)).text();
export const operating = (state, weather, signal) => json(ask("POST", "/api/operating", { ...state, ...weather }, signal));

export const jobs = () => json(ask("GET", "/api/jobs"));
export const job = (id) => json(ask("GET", `/api/job/${id}`));
export const start_job = (body) => json(ask("POST", "/api/job", body));
export const cancel_job = (id) => ask("DELETE", `/api/job/${id}`);
export const job_file = (id, path) => `/api/job/${id}/file/${path.split("/").map(encodeURIComponent).join("/")}`;
export const fetch_file = async (id, path) => (await ask("GET", job_file(id, path))).arrayBuffer();

export const watch = (since, signal) => json(ask("GET", `/api/watch?since=${since}`, undefined, signal));
export const formulas = () => json(ask("GET", "/api/reckon"));
export const reckon = (name, values, signal) => json(ask("POST", "/api/reckon", { name, values }, signal));

export const variants = () => json(ask("GET", "/api/variants"));
export const keep_variant = (name, state) => ask("POST", "/api/variants", { name, ...state });
export const drop_variant = (name) => ask("DELETE", `/api/variants/${encodeURIComponent(name)}`);
export const activity = () => json(ask("GET", "/api/activity"));

// ---- the works' log ------------------------------------------------------------------------------------------------

export const log_about = () => json(ask("GET", "/api/log/about"));
export const log_new = () => json(ask("POST", "/api/log/new", {}));
export const log_kinds = () => json(ask("GET", "/api/log/kinds"));
export const log_serials = (find) => json(ask("GET", `/api/log/serials?find=${encodeURIComponent(find)}`));
export const log_history = (serial) => json(ask("GET", `/api/log/history/${encodeURIComponent(serial)}`));
export const log_list = (kind, query = {}) => json(ask("GET", `/api/log/list/${kind}?${new URLSearchParams(query)}`));
export const log_stock = () => json(ask("GET", "/api/log/stock"));
export const log_stats = () => json(ask("GET", "/api/log/stats"));
export const log_add = (kind, body) => json(ask("POST", `/api/log/add/${kind}`, body));
export const log_change = (verb, kind, id, body) => json(ask("POST", `/api/log/${verb}/${kind}/${id}`, body));

// state.js: what is chosen, its history, and the address bar that holds it. A link reopens the same design.

const design_fields = ["stove", "works", "house", "house_text", "set", "with", "batch"];

const state = { page: "design", stove: null, works: null, house: null, house_text: null, set: {}, with: {}, batch: 1,
    colour: "material", left: "", right: "", outside_c: 15, wind_pa: 0 };
const listeners = new Set();
let past = [], future = [], grip = null; // grip: the control that is being dragged; its steps are one change

export function get() {
    return state;
}

/** What the server is asked with. */
export function design(of = state) {
    const d = { stove: of.stove, set: { ...of.set }, with: { ...of.with }, batch: of.batch ?? 1 };
    if (of.works) d.works = of.works;
    if (of.house) d.house = of.house;
    if (of.house && of.house_text) d.house_text = of.house_text;
    return d;
}

export function listen(f) {
    listeners.add(f);
    return () => listeners.delete(f);
}

function tell(what) {
    for (const f of [...listeners]) f(what);
}

function picture() {
    return JSON.stringify(Object.fromEntries(design_fields.map((k) => [k, state[k]])));
}

/** Changes the design. Steps with the same `hold` before let_go() are undone as one. */
export function change(patch, hold = null) {
    const before = picture();
    Object.assign(state, patch);
    if (picture() === before) return;
    if (hold === null || hold !== grip) {
        past.push(before);
        if (past.length > 200) past.shift();
    }
    grip = hold;
    future = [];
    write_address();
    tell("design");
}

export function let_go() {
    if (grip === null) return;
    grip = null;
    write_address();
}

/** Changes how it is looked at; not undone. */
export function look(patch) {
    Object.assign(state, patch);
    write_address("page" in patch);
    tell("page" in patch ? "page" : "look");
}

function go(from, to) {
    if (from.length === 0) return;
    to.push(picture());
    Object.assign(state, JSON.parse(from.pop()));
    grip = null;
    write_address();
    tell("design");
}

export const undo = () => go(past, future);
export const redo = () => go(future, past);
export const can_undo = () => past.length > 0;
export const can_redo = () => future.length > 0;

// ---- the address: #page?stove=...&set.wall=3mm&with.draught_pa=10 -------------------------------------------------

const weather = { outside_c: 15, wind_pa: 0 };

export function address_of(of) {
    const q = new URLSearchParams();
    for (const k of ["stove", "works", "house"]) if (of[k]) q.set(k, of[k]);
    if ((of.batch ?? 1) !== 1) q.set("batch", of.batch);
    if (of.house && of.house_text) q.set("house_text", of.house_text);
    for (const [k, usual] of Object.entries(weather)) if (Number.isFinite(of[k]) && of[k] !== usual) q.set(k, of[k]);
    for (const k of ["left", "right"]) if (of[k]) q.set(k, of[k]);
    if (of.colour && of.colour !== "material") q.set("colour", of.colour);
    for (const [k, v] of Object.entries(of.set ?? {})) q.set("set." + k, v);
    for (const [k, v] of Object.entries(of.with ?? {})) q.set("with." + k, v);
    return `#${of.page ?? "design"}?${q}`;
}

let timer = 0;
function write_address(step = false) {
    clearTimeout(timer);
    if (step) history.pushState(null, "", address_of(state));
    else timer = setTimeout(() => history.replaceState(null, "", address_of(state)), grip === null ? 0 : 250);
}

const plain_name = /^[A-Za-z_][\w.]{0,99}$/;

export function read_address(hash = location.hash) {
    const [page, query = ""] = hash.replace(/^#/, "").split("?");
    const q = new URLSearchParams(query);
    const read = { set: {}, with: {} };
    if (/^[a-z]+$/.test(page)) read.page = page;
    for (const [k, v] of q) {
        const [group, ...rest] = k.split(".");
        const name = rest.join(".");
        if ((group === "set" || group === "with") && plain_name.test(name))
            read[group][name] = group === "with" ? Number(v) : v;
        else if (k in weather && Number.isFinite(Number(v))) read[k] = Number(v);
        else if (["stove", "works", "house", "house_text", "colour", "left", "right"].includes(k)) read[k] = v;
        else if (k === "batch" && Number(v) >= 1) read.batch = Math.round(Number(v));
    }
    return read;
}

export function open_address() {
    const read = read_address();
    if (!read.stove) {
        if (read.page) state.page = read.page; // a bare #log keeps what is open
        return false;
    }
    Object.assign(state, { house: null, house_text: null, works: null, batch: 1, colour: "material", left: "", right: "", ...weather }, read);
    return true;
}

addEventListener("popstate", () => {
    const before = picture();
    open_address();
    tell(picture() === before ? "page" : "all");
});

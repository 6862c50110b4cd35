// jobs.js: long work in the background: started here, followed until it ends, kept by the server when the page closes.
import * as api from "./api.js";
import * as state from "./state.js";
import { h, fill } from "./dom.js";
import { base_name, words } from "./format.js";

const look_ms = 700, look_most_ms = 5000;
let list = [], timer = 0, fault = "";
const results = new Map(), listeners = new Set();
export const listen = (f) => (listeners.add(f), () => listeners.delete(f));
const tell = () => listeners.forEach((f) => f(list));
export const over = (j) => !["waiting", "running"].includes(j.state);

export async function refresh() {
    clearTimeout(timer);
    try {
        list = await api.jobs();
        fault = "";
    } catch (error) {
        fault = error.message;
    }
    tell();
    const busy = list.some((j) => !over(j));
    timer = setTimeout(refresh, busy ? look_ms : look_most_ms);
}

export async function start(kind, extra = {}) {
    const body = { ...state.design(), kind, ...extra };
    const { job } = await api.start_job(body);
    await refresh();
    return job;
}

export function newest(kind) {
    return list.find((j) => j.kind === kind) ?? null;
}

export function newest_done(kind) {
    return list.find((j) => j.kind === kind && j.state === "done") ?? null;
}

/** The whole job with its result; asked for once. */
export async function result(id) {
    if (!results.has(id)) {
        const whole = await api.job(id);
        if (whole.state !== "done") return whole;
        results.set(id, whole);
        if (results.size > 12) results.delete(results.keys().next().value);
    }
    return results.get(id);
}

const state_signs = { waiting: "…", running: "▸", done: "✓", failed: "✕", cancelled: "–" };

export function job_line(j, { files = false } = {}) {
    const p = j.progress ?? {}, share = p.of > 0 ? Math.min(1, p.done / p.of) : null;
    const bar = over(j) ? null : h("progress", { max: 1, value: share ?? undefined, "aria-label": `${j.kind}: progress` });
    const errors = j.errors ?? (j.error ? [j.error] : []);
    return h("div", { class: `job ${j.state}` },
        h("p", {}, h("b", {}, `${state_signs[j.state] ?? ""} ${words(j.kind)}`), ` ${j.state} `,
            h("time", { dateTime: j.when ?? "" }, (j.when ?? "").slice(11, 16)), p.text && !over(j) ? ` · ${p.text}` : ""),
        bar,
        over(j) ? null : h("button", { type: "button", class: "quiet", onclick: () => api.cancel_job(j.job).then(refresh, refresh) }, "Cancel"),
        errors.length ? h("p", { class: "warn" }, errors.map((e) => `${e.what ?? e.text ?? e} ${e.remedy ?? ""}`).join("; ")) : null,
        files && j.files?.length ? file_list(j) : null);
}

export function file_link(j, f) {
    return h("a", { href: api.job_file(j.job, f.path), download: base_name(f.path), title: f.what }, f.path);
}

export function file_list(j) {
    return h("ul", { class: "files" }, j.files.map((f) => h("li", {}, file_link(j, f), f.what ? ` – ${f.what}` : "")));
}

/** Whether a job's result belongs to the design that is on the page. */
export function same_design(result, answer) {
    if (!result?.parameters || !answer?.parameters) return true;
    const value = (list) => list.map((p) => `${p.name}=${p.value}`).join();
    return value(result.parameters) === value(answer.parameters) && result.batch === state.get().batch &&
        base_name(result.stove?.file) === state.get().stove;
}

/** A start button with what runs and how far; `show(result, job)` gets the newest result. */
export function job_panel(kind, label, { extra = () => ({}), show, clear = () => {}, get_answer = () => null, before = [] }) {
    const line = h("div", { role: "status" }), note = h("p", { class: "hint" }), warn = h("p", { class: "warn", role: "alert" });
    let shown = 0;
    const button = h("button", { type: "button", class: "go", onclick: async () => {
        warn.textContent = "";
        button.disabled = true;
        try {
            await start(kind, extra());
        } catch (error) {
            warn.textContent = error.errors?.map((e) => e.what).join("; ") ?? error.message;
        }
        button.disabled = false;
    } }, label);
    async function look() {
        const j = newest(kind), done = newest_done(kind);
        fill(line, j ? job_line(j) : null);
        if (!done) {
            clear();
            return;
        }
        if (done.job === shown) return;
        shown = done.job;
        try {
            const whole = await result(done.job);
            if (shown === done.job) show(whole.result, whole);
            note.textContent = same_design(whole.result, get_answer()) ? "" : "This result is of other settings than those on the page.";
        } catch (error) {
            warn.textContent = error.message;
        }
    }
    const stop = listen(look);
    look();
    return { host: h("div", { class: "jobpanel" }, before, button, line, warn, note), close: stop };
}

/** All kept jobs, for the mantel. */
export function tray() {
    const body = h("div", { class: "tray" });
    const sum = h("summary", {}, "Work in the background");
    const host = h("details", { class: "drop" }, sum, body);
    listen((jobs) => {
        const busy = jobs.filter((j) => !over(j)).length;
        sum.textContent = busy ? `Work in the background: ${busy} running` : "Work in the background";
        if (!host.open && body.childElementCount) return;
        fill(body, fault ? h("p", { class: "warn" }, fault) : null,
            jobs.length ? jobs.map((j) => job_line(j, { files: j.files?.length > 0 && j.files.length < 12 }))
                : h("p", { class: "hint" }, "Nothing yet. Nests, maps, sweeps and dossiers run here and stay when the page is closed."));
    });
    host.addEventListener("toggle", () => host.open && refresh());
    return host;
}

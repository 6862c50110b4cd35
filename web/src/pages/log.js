// log.js: the works' log: stoves and what became of them, first fires, inspections, and every other kind of record.
import * as api from "../api.js";
import * as entries from "../entries.js";
import { h, fill, section } from "../dom.js";
import { or_kept } from "../kept.js";
import { fault_list, kind_text, plain_time, record_form } from "../record_form.js";
import { record_table } from "../record_table.js";
import { table } from "../table.js";
import { stoves } from "./log_stoves.js";
import { first_fire } from "./log_first_fire.js";
import { inspection } from "./log_inspection.js";
import { stock } from "./log_stock.js";

const task_key = "stovewright-log-task";

/** What waits on this device, with what the server said. */
function waiting_list() {
    const host = h("div", { class: "waiting", role: "status" });
    const draw = () => {
        const list = entries.waiting();
        host.hidden = list.length === 0;
        fill(host, h("h3", {}, `… ${list.length} ${list.length === 1 ? "entry waits" : "entries wait"} on this device`),
            h("ul", { class: "kept" }, list.map((e) => h("li", {}, h("span", {}, h("b", {}, e.refused ? "✕ refused: " : "… not sent: "), `${e.count} ${kind_text(e.kind)}${e.about ? ` of ${e.about}` : ""}, ${plain_time(e.at)}`),
                e.errors ? fault_list(e.errors) : null,
                e.refused ? [h("button", { type: "button", class: "quiet", onclick: () => entries.try_again(e.id) }, "Try again"),
                    h("button", { type: "button", class: "quiet", onclick: () => confirm("Throw this entry away? It is recorded nowhere.") && entries.forget(e.id) }, "Throw away")] : null))),
            h("button", { type: "button", class: "go", onclick: () => entries.send() }, "Send now"));
    };
    draw();
    return { host, close: entries.listen(draw) };
}

function activity_list() {
    const host = h("div", {});
    api.activity().then((list) => fill(host, table("Newest first", [{ head: "when", get: (a) => plain_time(a.when) }, { head: "from", get: (a) => a.who }, { head: "by", get: (a) => a.about?.by ?? null },
        { head: "what", get: (a) => a.what }, { head: "about", get: (a) => (typeof a.about === "string" ? a.about : a.about?.about ?? (a.about ? JSON.stringify(a.about) : null)) }], list)),
    (error) => fill(host, h("p", { class: "warn" }, error.message)));
    return host;
}

function any_kind(desk, first = "batch", only = null) {
    const form = h("div", {}), list = h("div", {});
    let kind = first;
    const load = async () => {
        try {
            fill(list, record_table(desk.kinds.find((k) => k.name === kind), (await api.log_list(kind, { most: 100 })).records));
        } catch (error) {
            fill(list, h("div", { class: "notice" }, fault_list(error.errors ?? [{ what: error.message }])));
        }
    };
    const draw = () => {
        fill(form, h("p", { class: "hint" }, desk.kinds.find((k) => k.name === kind).meaning, "."), record_form(desk.kinds, kind, { files: desk.files(), preset: desk.preset, on_done: load }));
        load();
    };
    const select = h("select", { onchange: () => {
        kind = select.value;
        draw();
    } }, desk.kinds.map((k) => h("option", { value: k.name, selected: k.name === kind }, kind_text(k.name))));
    draw();
    return { host: h("div", {}, only ? null : h("label", { class: "choice" }, h("span", {}, "Kind of record"), select), form, list) };
}

const tasks = [
    { name: "stoves", text: "Stoves", make: stoves },
    { name: "firstfire", text: "First fire", make: first_fire },
    { name: "inspection", text: "Inspection", make: inspection },
    { name: "nonconformity", text: "Non-conformity", make: (desk) => any_kind(desk, "nonconformity", true) },
    { name: "service", text: "Service", make: (desk) => any_kind(desk, "service", true) },
    { name: "stock", text: "Batches and sheets", make: stock },
    { name: "any", text: "Any record", make: (desk) => any_kind(desk) },
];

function task_rail(open) {
    const buttons = tasks.map((t) => h("button", { type: "button", class: "chip", onclick: () => open(t.name) }, t.text));
    return { host: h("div", { class: "rail", role: "group", "aria-label": "What to do in the log" }, buttons), mark(name) {
        tasks.forEach((t, i) => buttons[i].setAttribute("aria-pressed", String(t.name === name)));
    } };
}

/** A log that is missing or cannot be used: what the server says, and the way out where there is one. */
function no_log(about, again) {
    const warn = h("div", { role: "alert" });
    const make = h("button", { type: "button", class: "go", onclick: async () => {
        try {
            await api.log_new();
            again();
        } catch (error) {
            fill(warn, fault_list(error.errors));
        }
    } }, "Start a log here");
    if (about.state === "missing") return section("No log yet", h("p", {}, `The folder holds no ${about.file}. A log is one file in which every record says who and when; nothing in it is overwritten.`), make, warn);
    return section("The log cannot be used", h("div", { class: "notice", role: "alert" }, fault_list(about.errors)), h("button", { type: "button", class: "quiet", onclick: again }, "Look again"));
}

export function open(root, app) {
    const body = h("div", {}), queue = waiting_list();
    let part = null, closed = false;
    fill(root, queue.host, body);
    async function start() {
        try {
            const about = await or_kept("log-about", api.log_about);
            if (closed) return;
            if (about.state !== "open") fill(body, no_log(about, start));
            else draw(about, (await or_kept("log-kinds", api.log_kinds)).kinds);
        } catch (error) {
            const lost = h("button", { type: "button", class: "quiet", onclick: start }, "Look again");
            fill(body, section("The works' log", h("div", { class: "notice" }, fault_list(error.errors ?? [{ what: error.message }])), error.status === 501 ? null : lost));
        }
    }
    function draw(about, kinds) {
        const host = h("div", {});
        const desk = { app, kinds, preset: {}, files: () => (app.project?.files ?? []).map((f) => f.name), open: (name, preset = {}) => open_task(name, preset) };
        const rail = task_rail(desk.open);
        function open_task(name, preset) {
            const task = tasks.find((t) => t.name === name) ?? tasks[0];
            part?.close?.();
            desk.preset = preset;
            try {
                localStorage.setItem(task_key, task.name);
            } catch { /* begins with the stoves, then */ }
            rail.mark(task.name);
            part = task.make(desk);
            fill(host, section(task.text, part.host));
            part.show?.(app.now);
        }
        fill(body, rail.host, about.writable ? null : h("p", { class: "notice" }, `${about.file} can only be read here: file, folder or disk is read-only.`), host,
            section("Who changed what", h("details", { class: "folder", ontoggle: (e) => e.target.open && e.target.children.length < 2 && e.target.append(activity_list()) }, h("summary", {}, "The last entries, variants and settings"))));
        let last = "";
        try {
            last = localStorage.getItem(task_key);
        } catch { /* none kept */ }
        open_task(last, {});
    }
    start();
    return { show: (now) => part?.show?.(now), close() {
        closed = true;
        queue.close();
        part?.close?.();
    } };
}

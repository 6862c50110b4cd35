// variants.js: designs kept under a name, and two of them side by side.
import * as api from "../api.js";
import { h, fill, section, choice, labelled } from "../dom.js";
import { figure_table } from "../figures.js";
import { opening } from "../opening.js";
import { table } from "../table.js";
import { badge } from "../findings.js";
import { number, plain } from "../format.js";

const studies = ["heft", "burn", "house", "form", "join", "coat", "fittings", "lift"];
const here = "the design on the page";

function differences(a, b) {
    const key = (f) => `${f.study}|${f.check}|${f.where}`, other = new Map(b.findings.map((f) => [key(f), f]));
    const rows = a.findings.filter((f) => other.has(key(f)) && other.get(key(f)).verdict !== f.verdict).map((f) => ({ f, g: other.get(key(f)) }));
    return table("Findings judged differently", [{ head: "finding", get: (r) => plain(r.g.what || r.f.what) }, { head: "left", get: (r) => r.f.verdict, show: (v) => badge(v) }, { head: "right", get: (r) => r.g.verdict, show: (v) => badge(v) }], rows, { empty: "none; both are judged alike." });
}

function settings(a, b) {
    const names = [...new Set([...a.parameters, ...b.parameters].map((p) => p.name))];
    const value = (x, n) => x.parameters.find((p) => p.name === n)?.value ?? null;
    const about = ["stove", "works", "house"].map((k) => ({ name: k, left: a[k]?.title ?? a[k]?.name ?? "none", right: b[k]?.title ?? b[k]?.name ?? "none" })).filter((r) => r.left !== r.right);
    const flue = (x) => JSON.stringify(x.house?.parts ?? null), told = (x) => (x.house?.parts ?? []).map((p) => `${p.name} ${number(p.length_m, 3)} m`).join(", ") || "none";
    if (flue(a) !== flue(b)) about.push({ name: "chimney", left: told(a), right: told(b) });
    return [about.length ? table("Files and chimney that differ", [{ head: "what", get: (r) => r.name }, { head: "left", get: (r) => r.left }, { head: "right", get: (r) => r.right }], about) : null, table("Parameters that differ", [{ head: "parameter", get: (n) => n.replaceAll("_", " ") }, { head: "left", get: (n) => value(a, n) }, { head: "right", get: (n) => value(b, n) }],
        names.filter((n) => value(a, n) !== value(b, n)), { empty: "none." })];
}

export function open(root, app) {
    let list = [], views = [], turn = 0;
    const kept = h("div", {}), sides = h("div", { class: "twosides" }), result = h("div", {}), chooser = h("div", { class: "jobpanel" }), warn = h("p", { class: "warn", role: "alert" });
    const name = h("input", { type: "text", maxLength: 60, required: true });
    const keep = h("form", { class: "jobpanel", onsubmit: async (e) => {
        e.preventDefault();
        await guard(async () => {
            await api.keep_variant(name.value.trim(), app.state.design());
            name.value = "";
            await refresh();
        });
    } }, labelled("Name of the variant", name), h("button", { type: "submit", class: "go" }, "Keep the design on the page"));
    async function guard(work) {
        warn.textContent = "";
        try {
            await work();
        } catch (error) {
            warn.textContent = error.message;
        }
    }
    const state_of = (n) => (n === here || n === "" ? app.state.design() : list.find((v) => v.name === n)?.state ?? null);
    async function refresh() {
        list = (await api.variants()).map((v) => ({ ...v, state: v.state ?? v }));
        fill(kept, list.length === 0 ? h("p", { class: "hint" }, "None kept yet.") : h("ul", { class: "kept" }, list.map((v) => h("li", {},
            h("a", { href: app.state.address_of({ ...v.state, page: "design" }) }, v.name), h("span", { class: "hint" }, ` ${v.state.stove}, ${Object.entries(v.state.set ?? {}).map(([k, x]) => `${k.replaceAll("_", " ")} ${x}`).join(", ") || "as described"}`),
            h("button", { type: "button", class: "quiet", "aria-label": `Drop ${v.name}`, onclick: () => guard(async () => {
                await api.drop_variant(v.name);
                await refresh();
            }) }, "Drop")))));
        const rows = [here, ...list.map((v) => v.name)].map((n) => ({ value: n, text: n }));
        const s = app.state.get();
        fill(chooser, choice("Left", rows, s.left || here, (v) => pick({ left: v })), choice("Right", rows, s.right || list[0]?.name || here, (v) => pick({ right: v })));
        await compare();
    }
    function pick(patch) {
        app.state.look(patch);
        guard(compare);
    }
    async function compare() {
        const mine = ++turn, s = app.state.get(), names = [s.left || here, s.right || list[0]?.name || here];
        views.forEach((v) => v.close());
        views = [];
        fill(sides);
        fill(result);
        if (list.length === 0) return;
        const states = names.map(state_of);
        if (states.some((x) => !x)) throw new Error("one of the two is not kept any more");
        const answers = await Promise.all(states.map((x) => api.compute(x, studies)));
        if (mine !== turn) return;
        states.forEach((x, i) => {
            const v = opening({ get_design: () => x, label: `${names[i]} in 3D`, small: true });
            views.push(v);
            sides.append(h("section", { "aria-label": names[i] }, h("h3", {}, names[i]), v.host));
            v.show({ answer: answers[i] });
            v.follow();
        });
        views.forEach((v, i) => v.view && (v.view.on_turn = (turned) => views[1 - i]?.view?.stand_as(turned)));
        fill(result, h("div", { class: "scroll" }, figure_table(answers[0], answers[1], names)), settings(...answers).filter(Boolean), differences(...answers));
    }
    root.append(section("Kept designs", keep, warn, kept), section("Side by side", chooser, sides, result));
    guard(refresh);
    return { show() {}, close() {
        turn += 1;
        views.forEach((v) => v.close());
    } };
}

// findings.js: the ledger at the side: every finding, worst first, each with its numbers, source and place.
import { h, fill, labelled } from "./dom.js";
import { base_name, number, percent, plain, unit, with_unit, words } from "./format.js";
import { explained, judged } from "./formulas.js";
import { picture } from "./picture.js";
import { places_of } from "./places.js";
import * as state from "./state.js";

export const verdicts = [
    { name: "fails", sign: "✕", text: "fails" },
    { name: "watch", sign: "△", text: "watch" },
    { name: "unknown", sign: "?", text: "unknown" },
    { name: "holds", sign: "✓", text: "holds" },
];
const of_name = Object.fromEntries(verdicts.map((v) => [v.name, v]));
const senses = { at_least: "must be at least", at_most: "must be at most", stated: "stated" };
const shown_at_once = 60;

export function badge(verdict) {
    const v = of_name[verdict] ?? { sign: "·", text: verdict };
    return h("span", { class: `badge ${verdict}` }, h("span", { "aria-hidden": "true" }, v.sign), " ", v.text);
}

/** The number against its limit on a scale from 0 to twice the limit. */
function gauge(f) {
    if (f.sense === "stated" || !Number.isFinite(f.value) || !Number.isFinite(f.limit) || f.limit <= 0) return null;
    const at = Math.max(0, Math.min(1, f.value / (2 * f.limit)));
    const meter = h("div", { class: `gauge ${f.verdict}`, "aria-hidden": "true" }, h("i", {}), h("b", {}));
    meter.querySelector("i").style.width = `${at * 100}%`;
    return meter;
}

function facts(f) {
    const rows = [], { formula, page } = explained(f), sum = judged(f, number);
    if (formula) rows.push(["reckoned", h("span", { class: "formula-line" }, formula)]);
    if (Number.isFinite(f.value)) rows.push(["is", with_unit(f.value, f.unit)]);
    if (f.sense !== "stated" && Number.isFinite(f.limit)) rows.push([senses[f.sense] ?? f.sense, with_unit(f.limit, f.unit)]);
    if (sum) rows.push(["judged", h("span", { class: "formula-line" }, sum)]);
    else if (f.sense !== "stated" && Number.isFinite(f.margin)) rows.push(["margin", `${percent(f.margin)} of the limit`]);
    rows.push(["where", plain(f.where) || "the whole stove"], ["source of the limit", plain(f.source) || "none named"]);
    if (f.remedy) rows.push(["what helps", plain(f.remedy)]);
    if (f.place?.file) rows.push(["in the description", `${base_name(f.place.file)}, line ${f.place.line}`]);
    rows.push(["study", `${words(f.study)}: ${words(f.check)}, ${page}`]);
    return h("dl", {}, rows.map(([k, v]) => [h("dt", {}, k), h("dd", {}, v)]));
}

function key_of(f) {
    return `${f.study}|${f.check}|${f.where}`;
}

export function ledger(host, show_place) {
    const wanted = { fails: true, watch: true, unknown: true, holds: false };
    const open = new Set();
    let answer = null, old = new Set(), errors = null, find = "", most = shown_at_once;
    const chips = h("div", { class: "chips", role: "group", "aria-label": "Which findings are listed" });
    const buttons = verdicts.map((v) => {
        const count = h("b", {}, "0");
        const button = h("button", { type: "button", class: `chip ${v.name}`, "aria-pressed": String(wanted[v.name]),
            onclick: () => {
                wanted[v.name] = !wanted[v.name];
                button.setAttribute("aria-pressed", String(wanted[v.name]));
                draw();
            } }, h("span", { "aria-hidden": "true" }, v.sign), " ", count, ` ${v.text}`);
        return { v, button, count };
    });
    fill(chips, buttons.map((b) => b.button));
    const search = h("input", { type: "search",
        oninput: () => {
            find = search.value.toLowerCase();
            draw();
        } });
    const list = h("ol", { class: "findings" }), more = h("button", { type: "button", class: "quiet", onclick: () => {
        most += 200;
        draw();
    } });
    const trouble = h("div", { class: "trouble", role: "alert" });
    const state_line = h("p", { class: "hint", role: "status" });
    const head = h("h2", { tabIndex: -1 }, "Findings");
    const glance = h("button", { type: "button", class: "glance", onclick: () => {
        host.scrollIntoView();
        head.focus();
    } });
    document.body.append(glance);
    fill(host, head, trouble, chips, labelled("Find in the findings", search), state_line, list, more);
    const nodes = new Map(), pictures = new Map();

    function draw_errors() {
        trouble.hidden = !errors;
        if (!errors) return;
        fill(trouble, h("strong", {}, "Not computed: "), "what is shown is the last design that could be.",
            h("ul", {}, errors.slice(0, 12).map((e) => h("li", {}, e.what ?? e.text ?? String(e),
                e.where?.file ? ` (${base_name(e.where.file)}${e.where.line ? `, line ${e.where.line}` : ""})` : "",
                e.remedy ? h("em", {}, ` ${e.remedy}`) : null))));
    }

    function entry(f) {
        const key = key_of(f);
        let item = nodes.get(key);
        if (!item) {
            const sum = h("summary", {}), body = h("div", { class: "why" });
            const box = h("details", { open: open.has(key) }, sum, body);
            item = { li: h("li", {}, box), sum, body, box, text: "" };
            box.addEventListener("toggle", () => {
                if (box.open) open.add(key);
                else open.delete(key);
                fill_body(item);
            });
            nodes.set(key, item);
        }
        item.finding = f;
        const text = `${f.verdict}|${f.what}|${f.value}|${old.has(f.study)}`;
        if (item.text !== text) {
            item.text = text;
            item.li.className = `finding ${f.verdict}${old.has(f.study) ? " old" : ""}`;
            fill(item.sum, badge(f.verdict), h("span", { class: "what" }, plain(f.what) || `${words(f.check)}, ${f.where}`),
                old.has(f.study) ? h("span", { class: "stale" }, "before the change") : null);
            fill_body(item);
        }
        return item.li;
    }

    function fill_body(item) {
        if (!item.box.open) return;
        const f = item.finding;
        const lit = places_of(f, answer), house = ["flue", "site"].includes(f.study);
        fill(item.body, gauge(f), facts(f), lit.length ? where_picture(f, lit) : null,
            h("button", { type: "button", class: "quiet", onclick: () => show_place(f) },
                lit.length ? "Show in 3D" : house ? "Show the house" : "Show the stove"));
    }

    /** The stove as a shade with the pieces lit; the same picture stays while the design does. */
    function where_picture(f, lit) {
        const names = lit.map((n) => [n, [...(answer.pieces ?? []), ...(answer.items ?? [])].find((p) => p.number === n)?.name].join(" "));
        const text = `Lit: ${names.slice(0, 4).join(", ")}${names.length > 4 ? ` and ${names.length - 4} more` : ""}`;
        const image = h("img", { alt: `The stove with ${text.slice(5)} lit` }), figure = h("figure", { class: "lit" }, image, h("figcaption", {}, text));
        const design = state.design(), key = JSON.stringify([design.stove, design.set, lit]);
        if (pictures.has(key)) image.src = pictures.get(key);
        else picture(design, lit).then((address) => {
            if (!address) return figure.remove();
            pictures.set(key, address);
            if (pictures.size > 40) pictures.delete(pictures.keys().next().value);
            image.src = address;
        }, () => figure.remove());
        return figure;
    }

    /** On a small screen the ledger lies under the page; its sum and the worst stay at the foot. */
    function draw_glance(worst) {
        const counts = verdicts.slice(0, 3).map((v) => `${v.sign} ${answer?.verdicts?.[v.name] ?? 0} ${v.text}`).join("  ");
        fill(glance, h("b", {}, errors ? "✕ not computed" : counts), worst ? h("span", {}, plain(worst.what)) : null);
    }

    function draw() {
        draw_errors();
        const all = answer?.findings ?? [];
        draw_glance(all[0]);
        for (const b of buttons) b.count.textContent = String(answer?.verdicts?.[b.v.name] ?? 0);
        const chosen = all.filter((f) => wanted[f.verdict] &&
            (find === "" || `${f.what} ${f.where} ${f.study} ${f.check} ${f.source}`.toLowerCase().includes(find)));
        const seen = new Map();
        const rows = [];
        for (const f of chosen) {
            if (rows.length === most) break;
            const k = key_of(f);
            if (seen.has(k)) continue;
            seen.set(k, true);
            rows.push(entry(f));
        }
        place(list, rows);
        more.hidden = chosen.length <= most;
        more.textContent = `Show more (${chosen.length - most} left)`;
        state_line.textContent = !answer ? "Being computed." : chosen.length === 0 ? "Nothing of this kind." : "";
        if (nodes.size > 1500) for (const k of nodes.keys()) if (!seen.has(k) && !open.has(k)) nodes.delete(k);
    }

    return {
        show(now) {
            answer = now.answer;
            old = now.old;
            errors = now.errors;
            draw();
        },
    };
}

/** Puts rows in order and leaves those that stand right alone, so that focus stays where it is. */
function place(list, rows) {
    const keep = new Set(rows);
    for (const child of [...list.children]) if (!keep.has(child)) child.remove();
    rows.forEach((row, i) => {
        if (list.children[i] !== row) list.insertBefore(row, list.children[i] ?? null);
    });
}

// reckon.js: the handbook's formulas as forms; the answer follows what is typed.
import * as api from "../api.js";
import { h, fill, section, labelled } from "../dom.js";
import { number, unit, words } from "../format.js";

let formulas = null, last = "";

function form(f) {
    const out = h("div", { class: "outputs", role: "status" }), warn = h("p", { class: "warn", role: "alert" });
    let stop = null, timer = 0;
    const fields = f.inputs.map((i) => ({ i, field: h("input", { type: "number", step: "any", min: i.low, max: i.high, value: i.preset ?? "", required: i.preset === null, oninput: soon }) }));
    async function ask() {
        const values = Object.fromEntries(fields.filter(({ field }) => field.value !== "").map(({ i, field }) => [i.name, Number(field.value)]));
        const missing = fields.filter(({ field, i }) => field.value === "" && i.preset === null);
        if (missing.length > 0) {
            fill(out, h("p", { class: "hint" }, `Give ${missing.map(({ i }) => i.meaning || words(i.name)).join(", ")}.`));
            return;
        }
        stop?.abort();
        stop = new AbortController();
        try {
            const answer = await api.reckon(f.name, values, stop.signal);
            warn.textContent = "";
            fill(out, h("dl", { class: "facts" }, f.outputs.map((o) => h("div", {}, h("dt", {}, o.meaning || words(o.name)), h("dd", {}, answer.outputs[o.name] === null ? "outside the formula's range" : h("b", {}, number(answer.outputs[o.name], 6)), ` ${unit(o.unit)}`)))));
        } catch (error) {
            if (error.name === "AbortError") return;
            fill(out);
            warn.textContent = error.errors?.map((e) => `${e.what ?? e.text}${e.remedy ? `; ${e.remedy}` : ""}`).join("; ") ?? error.message;
        }
    }
    function soon() {
        clearTimeout(timer);
        timer = setTimeout(ask, 120);
    }
    ask();
    return h("article", { class: "formula" }, h("h3", {}, f.meaning), h("p", { class: "equation" }, f.formula), h("form", { class: "inputs", onsubmit: (e) => {
        e.preventDefault();
        ask();
    } }, fields.map(({ i, field }) => h("label", { class: "choice" }, h("span", {}, `${words(i.name)}${i.meaning ? `, ${i.meaning}` : ""}`), h("span", { class: "amount" }, field, h("span", { class: "unit" }, unit(i.unit))),
        Number.isFinite(i.low) && i.low !== null ? h("small", {}, `${number(i.low)} to ${number(i.high)}`) : null))), out, warn,
    h("p", { class: "hint" }, `Holds for: ${f.range || "all inputs"}. Source: ${f.source}.`));
}

export function open(root) {
    const names = h("div", { class: "formulas" }), place = h("div", {});
    const find = h("input", { type: "search", oninput: draw });
    root.append(section("Handbook calculator", h("div", { class: "calculator" }, h("div", {}, labelled("Find a formula, e.g. bend, laser, lambda", find), names), place)));
    function show(f) {
        last = f.name;
        fill(place, form(f));
        draw();
    }
    function draw() {
        const text = find.value.toLowerCase();
        fill(names, h("ul", {}, formulas.filter((f) => `${f.name} ${f.meaning} ${f.source} ${f.formula}`.toLowerCase().includes(text)).map((f) => h("li", {},
            h("button", { type: "button", class: "link", "aria-current": f.name === last ? "true" : null, onclick: () => show(f) }, f.meaning)))));
    }
    (formulas ? Promise.resolve(formulas) : api.formulas()).then((list) => {
        formulas = Array.isArray(list) ? list : list.formulas;
        show(formulas.find((f) => f.name === last) ?? formulas[0]);
    }, (error) => fill(place, h("p", { class: "warn" }, error.message)));
    return { show() {} };
}

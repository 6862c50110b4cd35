// parameters.js: the description's parameters and the burn's conditions as a slider and a number field each.
import { h, fill, fresh_id } from "./dom.js";
import { number, unit, words } from "./format.js";
import * as state from "./state.js";

/** A step that people would choose, about a two-hundredth of the range. */
export function step_of(low, high, whole) {
    if (whole) return 1;
    const rough = (high - low) / 200;
    if (!(rough > 0)) return 0.1;
    const ten = 10 ** Math.floor(Math.log10(rough));
    return [1, 2, 5, 10].map((k) => k * ten).find((s) => s >= rough * 0.999);
}

function clean(value) {
    return Number(value.toPrecision(10));
}

function row(p, put) {
    const label = p.label ?? words(p.name), id = fresh_id("p"), note = `${id}-note`, bounds = p.show ?? [p.low, p.high];
    const whole = p.unit === "" && [p.low, p.high, p.preset].every(Number.isInteger) && p.high - p.low > 1;
    const step = step_of(bounds[0], bounds[1], whole);
    const slider = h("input", { type: "range", min: bounds[0], max: bounds[1], step, "aria-describedby": note,
        "aria-label": `${label}, slider` });
    const field = h("input", { id, type: "number", min: p.low, max: p.high, step: "any", inputMode: "decimal",
        "aria-describedby": note });
    const back = h("button", { type: "button", class: "quiet back", title: "Back to the description's value",
        "aria-label": `${label}: back to the description's value` }, "↺");
    const warn = h("span", { class: "warn", role: "alert" });
    const line = h("div", { class: "parameter" },
        h("div", { class: "name" }, h("label", { htmlFor: id }, label), back),
        slider,
        h("div", { class: "amount" }, field, h("span", { class: "unit" }, unit(p.unit))),
        h("div", { class: "note", id: note }, p.meaning ?? "", " ",
            h("span", { class: "bounds" }, `${number(p.low)} to ${number(p.high)}${p.unit ? " " + unit(p.unit) : ""}`)),
        warn);
    slider.addEventListener("input", () => {
        field.value = clean(Number(slider.value));
        put(p, Number(slider.value), p.name);
    });
    slider.addEventListener("change", state.let_go);
    field.addEventListener("change", () => {
        const value = Number(field.value), good = field.value !== "" && value >= p.low && value <= p.high;
        warn.textContent = good ? "" : `must be from ${number(p.low)} to ${number(p.high)} ${unit(p.unit)}`;
        field.setAttribute("aria-invalid", String(!good));
        if (good) put(p, value, null);
    });
    back.addEventListener("click", () => put(p, p.preset, null));
    const show = (value) => {
        if (document.activeElement !== field) field.value = clean(value);
        if (Number(slider.value) !== value) slider.value = value;
        slider.setAttribute("aria-valuetext", `${number(value)} ${unit(p.unit)}`);
        const changed = Math.abs(value - p.preset) > 1e-9 * Math.max(1, Math.abs(p.preset));
        line.classList.toggle("changed", changed);
        back.hidden = !changed;
    };
    return { line, show };
}

function put_setting(p, value, hold) {
    const set = { ...state.get().set };
    if (Math.abs(value - p.preset) < 1e-9) delete set[p.name];
    else set[p.name] = `${clean(value)}${p.unit ?? ""}`;
    state.change({ set }, hold && "set." + hold);
}

function put_condition(p, value, hold) {
    const conditions = { ...state.get().with };
    if (Math.abs(value - p.preset) < 1e-12) delete conditions[p.name];
    else conditions[p.name] = clean(value);
    state.change({ with: conditions }, hold && "with." + hold);
}

/** Sliders for the parameters of an answer; `show` follows later answers. */
export function parameter_panel() {
    const host = h("div", { class: "parameters" });
    let rows = new Map(), names = "";
    const show = (answer) => {
        const list = answer?.parameters ?? [];
        const key = list.map((p) => [p.name, p.low, p.high, p.preset].join()).join(";");
        if (key !== names) {
            names = key;
            rows = new Map(list.map((p) => [p.name, row(p, put_setting)]));
            fill(host, [...rows.values()].map((r) => r.line));
        }
        const set = state.get().set;
        for (const p of list) rows.get(p.name).show(p.name in set ? parseFloat(set[p.name]) : p.preset);
    };
    return { host, show };
}

export function condition_panel(list) {
    const rows = new Map(list.map((p) => [p.name, row(p, put_condition)]));
    const host = h("div", { class: "parameters" }, [...rows.values()].map((r) => r.line));
    const show = () => {
        for (const p of list) rows.get(p.name).show(state.get().with[p.name] ?? p.preset);
    };
    show();
    return { host, show };
}

// parts.js: what several pages share.
import { h } from "../dom.js";
import * as state from "../state.js";

export function batch_field() {
    const field = h("input", { type: "number", min: 1, max: 10000, step: 1, value: state.get().batch, onchange: () => {
        const batch = Math.round(Number(field.value));
        if (batch >= 1 && batch <= 10000) state.change({ batch });
        else field.value = state.get().batch;
    } });
    return h("label", { class: "choice" }, h("span", {}, "stoves in the batch"), field);
}

/** Draws `make(now)` only when `key(now)` has changed. */
export function lazily(host, key, make) {
    let last;
    return (now) => {
        const k = now.answer ? JSON.stringify(key(now.answer)) : undefined;
        if (k === last) return;
        last = k;
        host.replaceChildren(...(now.answer ? [make(now.answer)].flat(2).filter(Boolean) : []));
    };
}

export const not_yet = (what) => h("p", { class: "hint" }, `${what} not computed: see the findings, or choose the files it needs above.`);

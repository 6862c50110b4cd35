// opening.js: the 3D view with its handles: colour, parts shown, explosion, section, views, and the pieces as a list.
import { h, fill, choice } from "./dom.js";
import { number, words } from "./format.js";
import { Arch } from "./arch.js";
import { View, can_draw, drawn_by_processor } from "./view3d.js";
import { colouring, ways } from "./colour.js";
import { model_feed } from "./model.js";
import * as compute from "./compute.js";
import * as state from "./state.js";

const views = [["corner", "Corner"], ["front", "Front"], ["side", "Side"], ["back", "Back"], ["top", "Top"]];
const cuts = [{ value: "", text: "none" }, { value: "x", text: "left to right" }, { value: "y", text: "front to back" }, { value: "z", text: "bottom to top" }];

export function opening({ on_pick, get_design = () => state.design(), label, small = false }) {
    const stage = h("div", { class: "stage" }), legend = h("div", { class: "legend" }), warn = h("p", { class: "warn", role: "alert" });
    const told = h("p", { class: "told" }); // what the piece under the pointer, else the chosen one, is
    if (!can_draw()) {
        fill(stage, h("p", { class: "hint" }, "This browser cannot draw in 3D (WebGL 2); everything else works."));
        return { host: h("div", { class: "opening" }, stage), view: null, follow() {}, show() {}, choose() {}, paint() {}, close() {} };
    }
    const view = new View(stage, label);
    view.stand_under(new Arch());
    let answer = null, colours = null, chosen = null, shown_way = null;
    const groups = h("fieldset", { class: "groups" }, h("legend", {}, "Shown"));
    const pieces = h("select", { "aria-label": "Piece", onchange: () => pick(pieces.value || null) });
    const spread = h("input", { type: "range", min: 0, max: 1.5, step: 0.01, value: 0, "aria-label": "Pull apart",
        oninput: () => view.explode(Number(spread.value)) });
    const cut_at = h("output", {}), cut = h("input", { type: "range", min: 0, max: 1, step: 0.005, value: 0.5, disabled: true,
        "aria-label": "Where the section stands", oninput: () => section() });
    let axis = "";
    const tell_cut = () => (cut_at.textContent = axis === "" ? "" : `${number(view.section_mm(), 4)} mm`);
    const section = () => {
        view.section(axis, Number(cut.value));
        cut.disabled = axis === "";
        tell_cut();
    };
    function tell(n) {
        const p = [...(answer?.pieces ?? []), ...(answer?.items ?? [])].find((x) => x.number === n);
        told.textContent = p && colours ? `${p.number} ${p.name}: ${colours.tell(n)}` : small ? "" : "Point at a piece to read its colour; click it for all that is known of it.";
    }
    view.on_point = (n) => tell(n ?? chosen);
    function pick(n) {
        chosen = n;
        tell(n);
        view.choose(n);
        pieces.value = n ?? "";
        on_pick?.(n);
    }
    view.on_pick = pick;
    const feed = model_feed(get_design, { held: () => view.held(), take: (bytes, fresh, rough) => {
        view.load(bytes, fresh, rough);
        draw_groups();
        tell_cut();
        view.paint(colours?.of);
        stage.dataset.loaded = String(Number(stage.dataset.loaded ?? 0) + 1);
        return view.drawn();
    }, between: () => (drawn_by_processor() ? compute.figures_in_hand() : null), fault: (error) => (warn.textContent = error ? `3D: ${error.message}` : "") });
    let group_names = "";
    function draw_groups() {
        const names = view.groups.map((g) => g.name).join();
        if (names === group_names) return;
        group_names = names;
        const hidden = new Set();
        view.hide(hidden);
        fill(groups, h("legend", {}, "Shown"), view.groups.map((g) => h("label", {}, h("input", { type: "checkbox", checked: true,
            onchange: (e) => {
                if (e.target.checked) hidden.delete(g.name);
                else hidden.add(g.name);
                view.hide(hidden);
            } }), words(g.text))));
    }
    function paint() {
        const way = shown_way = state.get().colour;
        colours = colouring(ways.some((w) => w.value === way) ? way : "material", answer);
        view.paint(colours.of);
        fill(legend, colours.legend);
        tell(chosen);
    }
    let listed = "";
    function list_pieces() {
        const all = [...(answer?.pieces ?? []), ...(answer?.items ?? [])], key = all.map((p) => p.number + p.name).join();
        if (key === listed) return;
        listed = key;
        const chosen = pieces.value;
        fill(pieces, h("option", { value: "" }, "choose a piece"), all.map((p) => h("option", { value: p.number }, `${p.number} ${p.name}`)));
        pieces.value = all.some((p) => p.number === chosen) ? chosen : "";
    }
    const tools = h("div", { class: "tools" },
        choice("Colour by", ways, state.get().colour, (v) => {
            state.look({ colour: v });
            paint();
        }),
        h("label", { class: "choice" }, h("span", {}, "Pull apart"), spread),
        choice("Section", cuts, "", (v) => {
            axis = v;
            section();
        }),
        h("label", { class: "choice" }, h("span", {}, "at ", cut_at), cut),
        small ? null : h("label", { class: "choice" }, h("span", {}, "Piece"), pieces));
    const sides = h("div", { class: "sides", role: "group", "aria-label": "Look from" },
        views.map(([name, text]) => h("button", { type: "button", class: "quiet", onclick: () => view.look(name) }, text)));
    const host = h("div", { class: "opening" }, h("div", { class: "mouth" }, stage, sides), warn, told, legend, tools, groups);
    return {
        host,
        view,
        follow: feed.ask,
        show(now) {
            if (answer === now.answer && shown_way === state.get().colour) return;
            answer = now.answer;
            list_pieces();
            paint();
        },
        choose: pick,
        paint,
        close() {
            feed.close();
            view.close();
        },
    };
}

// mantel.js: the shelf over the page: which files, the figures, undo and redo, and whether all is computed.
import { h, fill, choice } from "./dom.js";
import { number } from "./format.js";
import * as state from "./state.js";
import { figure_row } from "./figures.js";
import { tray } from "./jobs.js";

export function mantel(host, app) {
    const files = h("div", { class: "files" }), figures = figure_row(), status = h("p", { class: "status", role: "status" });
    const undo = h("button", { type: "button", class: "quiet", onclick: state.undo, title: "Ctrl+Z" }, "Undo");
    const redo = h("button", { type: "button", class: "quiet", onclick: state.redo, title: "Ctrl+Shift+Z" }, "Redo");
    const share = h("button", { type: "button", class: "quiet", onclick: async () => {
        try {
            await navigator.clipboard.writeText(location.href);
            share.textContent = "Link copied";
        } catch {
            share.textContent = "Copy the address bar";
        }
        setTimeout(() => (share.textContent = "Copy link"), 2000);
    } }, "Copy link");
    const dark = h("button", { type: "button", class: "quiet", onclick: () => {
        const next = shade() === "dark" ? "light" : "dark";
        document.documentElement.dataset.shade = next;
        try {
            localStorage.setItem("stovewright-shade", next);
        } catch { /* not kept, then */ }
        name_shade();
    } });
    const shade = () => document.documentElement.dataset.shade ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
    const name_shade = () => (dark.textContent = shade() === "dark" ? "Light" : "Dark");
    name_shade();
    const title = h("h1", {}, "Stovewright");
    fill(host, h("div", { class: "lintel" }, title, files, h("div", { class: "acts" }, undo, redo, share, dark, tray())), figures.host, status);
    function draw_files() {
        const of = (kind) => (app.project?.files ?? []).filter((f) => f.kind === kind).map((f) => ({ value: f.name, text: (f.title || f.name) + (f.errors?.length ? " (has faults)" : "") }));
        const s = state.get(), none = { value: "", text: "none" };
        fill(files, choice("Stove", of("stove"), s.stove, (v) => state.change({ stove: v, set: {} })),
            choice("Works", [none, ...of("works")], s.works ?? "", (v) => state.change({ works: v || null })),
            choice("House", [none, ...of("house")], s.house ?? "", (v) => state.change({ house: v || null, house_text: null })));
    }
    return {
        draw_files,
        show(now) {
            figures.show(now);
            undo.disabled = !state.can_undo();
            redo.disabled = !state.can_redo();
            status.textContent = now.errors ? "✕ not computed, see the findings" : now.whole ? `✓ all studies computed, the quick ones in ${number(now.took_ms, 2)} ms`
                : now.answer ? "… figures are new, the other studies follow" : "… computing";
        },
    };
}

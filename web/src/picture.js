// picture.js: still pictures of the stove with some pieces lit, for the explanations of findings. One small solid is kept.
import * as api from "./api.js";
import { View, can_draw } from "./view3d.js";
import { h } from "./dom.js";

const width = 480, height = 330;
let view = null, loaded = "", queue = Promise.resolve();

async function ready(design) {
    if (!view) {
        const host = h("div", { class: "darkroom", "aria-hidden": "true" });
        document.body.append(host);
        view = new View(host, "");
        view.canvas.tabIndex = -1;
        view.canvas.setAttribute("role", "presentation");
        view.canvas.removeAttribute("aria-label");
    }
    const key = JSON.stringify([design.stove, design.works, design.set]);
    if (key === loaded) return;
    view.load(await api.picture(design, view.held()), true);
    loaded = key;
}

/** A picture as an address for <img>; null where there is no 3D. One after another: they share the solid. */
export function picture(design, numbers) {
    if (!can_draw()) return Promise.resolve(null);
    const made = queue.then(async () => {
        await ready(design);
        return view.still(new Set(numbers), width, height);
    });
    queue = made.catch(() => {});
    return made;
}

// design.js: parameters, the stove, and the piece that was chosen.
import { h } from "../dom.js";
import { parameter_panel, condition_panel } from "../parameters.js";
import { conditions } from "../conditions.js";
import { opening } from "../opening.js";
import { piece_card } from "../piece.js";

export function open(root, app) {
    const panel = parameter_panel(), burn = condition_panel(conditions.slice(0, 1));
    const card_host = h("section", { class: "part piece", "aria-label": "The chosen piece" });
    const card = piece_card(card_host);
    const view = opening({ on_pick: (n) => card.choose(n) });
    root.append(h("div", { class: "design" },
        h("section", { class: "bench", "aria-labelledby": "bench-head" }, h("h2", { id: "bench-head" }, "Parameters"), panel.host,
            h("h3", {}, "Fire"), burn.host),
        h("section", { class: "hearth", "aria-label": "The stove in 3D" }, view.host), card_host));
    if (app.wanted_piece) {
        view.choose(app.wanted_piece);
        app.wanted_piece = null;
    }
    view.follow();
    return {
        show(now) {
            panel.show(now.answer);
            burn.show();
            view.show(now);
            card.show(now);
        },
        follow: view.follow,
        choose: view.choose,
        close() {
            view.close();
            card.close();
        },
    };
}

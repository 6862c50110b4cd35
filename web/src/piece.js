// piece.js: what is known of one piece: flat, bends, mass, seams, temperature.
import * as api from "./api.js";
import * as state from "./state.js";
import { h, fill } from "./dom.js";
import { facts, save, table } from "./table.js";
import { number, with_unit, words } from "./format.js";
import { facts_of, fit_risks, risk_text, weld_steps } from "./colour.js";

export function piece_card(host) {
    let number_shown = null, url = "", stop = null, timer = 0, answer = null, asked = "";
    const drawing = h("img", { class: "flat", alt: "" }), about = h("div", {}), note = h("p", { class: "hint", role: "status" });
    const take = h("button", { type: "button", class: "quiet" }, "Save the flat as SVG");
    async function draw() {
        const p = facts_of(answer).get(number_shown), key = JSON.stringify([state.design(), number_shown]);
        if (!p || !("flat_area_mm2" in p)) {
            drawing.hidden = take.hidden = true;
            note.textContent = p ? "Not cut from sheet: no flat." : "";
            return;
        }
        if (key === asked) return;
        asked = key;
        stop?.abort();
        stop = new AbortController();
        try {
            const blob = await api.flat(state.design(), number_shown, stop.signal);
            URL.revokeObjectURL(url);
            url = URL.createObjectURL(blob);
            drawing.src = url;
            drawing.alt = `Flat of ${p.number} ${p.name}: ${number(p.flat_length_mm)} by ${number(p.flat_width_mm)} mm, ${p.bends.length} bends`;
            drawing.hidden = take.hidden = false;
            take.onclick = () => save(`${p.number}.svg`, blob);
            note.textContent = "";
        } catch (error) {
            if (error.name === "AbortError") return;
            asked = "";
            note.textContent = `No drawing: ${error.message}`;
        }
    }
    function tell() {
        const p = facts_of(answer).get(number_shown);
        host.hidden = !number_shown;
        if (!number_shown) return;
        if (!p) {
            fill(about, h("h2", {}, number_shown), h("p", { class: "hint" }, "This piece is not in the stove as it is now."));
            return;
        }
        const mine = `${p.number} ${p.name}`;
        const seams = (answer.shop?.join?.seams ?? []).filter((s) => s.a === mine || s.b === mine);
        const joints = seams.length ? [] : (answer.joints ?? []).filter((j) => j.name.includes(p.name));
        const weld = weld_steps(answer), step = weld.steps.get(p.number), risk = fit_risks(answer).get(p.number);
        const hot = p.hot_copies.filter(Number.isFinite), coolest = Math.min(...hot);
        const warmth = p.hot_c === null ? "not computed" : hot.length > 1 && p.hot_c - coolest > 1
            ? `${number(coolest, 3)} to ${with_unit(p.hot_c, "degC", 3)}` : with_unit(p.hot_c, "degC", 3);
        fill(about, h("h2", {}, `${p.number} ${p.name}`),
            facts([["role", words(p.role)], ["material", p.material || "bought in"], p.thickness_mm && ["thickness", with_unit(p.thickness_mm, "mm")],
                ["in one stove", String(p.count)], ["mass", with_unit(p.mass_kg, "kg")],
                ["temperature, steady", warmth],
                p.flat_length_mm && ["flat", `${number(p.flat_length_mm)} × ${number(p.flat_width_mm)} mm`],
                p.cut_mm && ["cut length", with_unit(p.cut_mm / 1000, "m")]]),
            step ? h("p", {}, h("b", {}, "Welded first: "), `step ${step.step} of ${weld.bodies.length}, ${step.body.name}.`) : null, risk ? h("p", {}, h("b", {}, "Fit: "), `${risk_text(risk)}.`) : null,
            p.bends && p.bends.length === 0 ? h("p", { class: "hint" }, "Flat: no bends.") : null,
            p.bends?.length ? table(`Bends of ${p.number}`, [
                { head: "bend", get: (b) => b.name }, { head: "kind", get: (b) => b.kind }, { head: "angle", unit: "°", get: (b) => b.angle_deg },
                { head: "inside radius", unit: "mm", get: (b) => b.radius_mm }, { head: "allowance", unit: "mm", get: (b) => b.allowance_mm },
                { head: "direction", get: (b) => (b.up ? "up" : "down") }, { head: "rule", get: (b) => b.rule }], p.bends) : null,
            seams.length ? table(`Seams of ${p.number}`, [
                { head: "seam", get: (s) => s.joint }, { head: "kind", get: (s) => s.kind }, { head: "throat", unit: "mm", get: (s) => s.throat_mm },
                { head: "length", unit: "mm", get: (s) => s.weld_mm }, { head: "station", get: (s) => s.station }], seams) : null,
            joints.length ? table(`Joints of ${p.number}`, [{ head: "joint", get: (j) => j.name }, { head: "kind", get: (j) => j.kind },
                { head: "gap at most", unit: "mm", get: (j) => j.gap_most_mm }], joints) : null);
    }
    fill(host, h("div", { class: "pieceabout" }, about), h("div", { class: "piecedrawing" }, drawing, note, take));
    host.hidden = true;
    return {
        choose(n) {
            number_shown = n;
            asked = "";
            tell();
            if (n) draw();
        },
        show(now) {
            answer = now.answer;
            if (!number_shown) return;
            tell();
            clearTimeout(timer);
            timer = setTimeout(draw, 400);
        },
        close() {
            clearTimeout(timer);
            stop?.abort();
            URL.revokeObjectURL(url);
        },
    };
}


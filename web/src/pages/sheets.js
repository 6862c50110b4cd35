// sheets.js: the pieces' flats and the nests on the works' sheets.
import { h, fill, section } from "../dom.js";
import { number, percent, time, with_unit } from "../format.js";
import { facts, table } from "../table.js";
import { job_file } from "../api.js";
import { job_panel } from "../jobs.js";
import * as state from "../state.js";
import { batch_field } from "./parts.js";

function nest(n, job, index) {
    if (n.why) return h("article", { class: "nest" }, h("h3", {}, n.name), h("p", { class: "warn" }, `Not nested: ${n.why}`));
    const maps = (job.files ?? []).filter((f) => f.path.startsWith(`nest-${index + 1}-`));
    return h("article", { class: "nest" }, h("h3", {}, n.name),
        facts([["sheets", String(n.sheets_total)], ["used of the sheet", percent(n.density)], ["at best possible", percent(n.bound_density)],
            ["cost", number(n.cost)], ["scrap", with_unit(n.scrap_kg, "kg")], ["search", `${time(n.seconds)}${n.stopped === true ? ", stopped early" : ""}`]]),
        h("div", { class: "maps" }, maps.map((f) => h("figure", {}, h("img", { src: job_file(job.job, f.path), alt: `Nest map: ${f.what}`, loading: "lazy" }),
            h("figcaption", {}, f.what, " ", h("a", { href: job_file(job.job, f.path), download: f.path }, "save"))))),
        table(`Sheets of ${n.name}`, [{ head: "stock", get: (s) => s.stock }, { head: "times", get: (s) => s.repeat },
            { head: "length", unit: "mm", get: (s) => s.length_mm }, { head: "width", unit: "mm", get: (s) => s.width_mm },
            { head: "used", get: (s) => s.density, show: (v) => percent(v) }, { head: "pieces", get: (s) => s.places?.length },
            { head: "cut", unit: "m", get: (s) => s.cut && s.cut.cut_mm / 1000 }, { head: "pierces", get: (s) => s.cut?.pierces },
            { head: "laser", get: (s) => s.cut?.total_s, show: (v) => time(v) }, { head: "gas", unit: "m³", get: (s) => s.cut?.gas_m3 },
            { head: "cut cost", get: (s) => s.cut?.cost }], n.sheets));
}

export function open(root, app) {
    const seconds = h("input", { type: "number", min: 1, max: 3000, value: 10, id: "nest-seconds" });
    const found = h("div", {}), pieces = h("div", {});
    const job = job_panel("nest", "Nest now", {
        extra: () => ({ seconds: Number(seconds.value) || 10 }),
        get_answer: () => app.now.answer,
        show: (result, whole) => fill(found, (result.nests ?? []).map((n, i) => nest(n, whole, i))),
        before: [batch_field(), h("label", { class: "choice" }, h("span", {}, "search for, seconds"), seconds)],
    });
    root.append(section("Nests", state.get().works ? null : h("p", { class: "hint" }, "Nesting needs a works: choose one above."), job.host, found),
        section("Pieces", pieces));
    let shown = "";
    return {
        show(now) {
            const key = JSON.stringify(now.answer?.pieces?.map((p) => [p.number, p.flat_length_mm, p.mass_kg]));
            if (!now.answer || key === shown) return;
            shown = key;
            fill(pieces, table("Pieces of one stove", [
                { head: "number", get: (p) => p.number }, { head: "name", get: (p) => p.name }, { head: "group", get: (p) => p.group },
                { head: "material", get: (p) => p.material }, { head: "thickness", unit: "mm", get: (p) => p.thickness_mm }, { head: "count", get: (p) => p.count },
                { head: "flat length", unit: "mm", get: (p) => p.flat_length_mm }, { head: "flat width", unit: "mm", get: (p) => p.flat_width_mm },
                { head: "cut", unit: "mm", get: (p) => p.cut_mm }, { head: "cut-outs", get: (p) => p.cut_outs }, { head: "bends", get: (p) => p.bends.length },
                { head: "mass", unit: "kg", get: (p) => p.mass_kg }], now.answer.pieces, { pick: (p) => app.show_piece(p.number) }),
            table("Bought in", [{ head: "number", get: (p) => p.number }, { head: "name", get: (p) => p.name }, { head: "kind", get: (p) => p.kind },
                { head: "material", get: (p) => p.material }, { head: "count", get: (p) => p.count }, { head: "mass", unit: "kg", get: (p) => p.mass_kg },
                { head: "price", get: (p) => p.price }], now.answer.items));
        },
        close: job.close,
    };
}

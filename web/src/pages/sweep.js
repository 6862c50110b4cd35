// sweep.js: one or two parameters varied over a range; what comes of it as a curve or a map.
import { h, fill, section, choice } from "../dom.js";
import { number, unit, words } from "../format.js";
import { conditions, quantities } from "../conditions.js";
import { curves, two_way } from "../plot.js";
import { job_panel } from "../jobs.js";
import { table } from "../table.js";
import { job_file } from "../api.js";

export function open(root, app) {
    const axes = [axis("First", 0), axis("Second", 1)];
    const fields = h("div", { class: "axes" }), shown = h("div", {}), chosen = new Set(["efficiency", "mass_kg", "pane_c"]);
    let names = "";
    function axis(label, which) {
        return { label, which, name: "", low: h("input", { type: "number", step: "any" }), high: h("input", { type: "number", step: "any" }), count: h("input", { type: "number", min: 2, max: 25, value: which ? 5 : 7 }) };
    }
    const list = () => [...(app.now.answer?.parameters ?? []), ...conditions.map((c) => ({ ...c, condition: true }))];
    function pick(a, name) {
        a.name = name;
        const p = list().find((x) => x.name === name), ends = p?.show ?? [p?.low, p?.high];
        a.low.value = p ? ends[0] : "";
        a.high.value = p ? ends[1] : "";
        a.unit_text.textContent = p ? unit(p.unit) : "";
    }
    function draw_fields() {
        const rows = list().map((p) => ({ value: p.name, text: p.condition ? `fire: ${p.label}` : words(p.name) }));
        fill(fields, axes.map((a) => {
            a.unit_text = h("span", { class: "unit" });
            const first = a.name || (a.which === 0 ? rows[0]?.value : "");
            const box = h("fieldset", {}, h("legend", {}, a.label), choice("vary", [...(a.which ? [{ value: "", text: "nothing more" }] : []), ...rows], first, (v) => pick(a, v)),
                h("label", { class: "choice" }, h("span", {}, "from"), a.low), h("label", { class: "choice" }, h("span", {}, "to"), a.high), a.unit_text, h("label", { class: "choice" }, h("span", {}, "steps"), a.count));
            pick(a, first);
            return box;
        }));
    }
    function vary() {
        const used = axes.filter((a) => a.name !== "");
        if (new Set(used.map((a) => a.name)).size < used.length) throw new Error("choose two different parameters");
        return used.map((a) => {
            const u = list().find((x) => x.name === a.name), mark = u?.condition ? "" : (u?.unit ?? "");
            return `${a.name}=${a.low.value}${mark}:${a.high.value}${mark}:${a.count.value}`;
        });
    }
    const boxes = h("fieldset", { class: "groups" }, h("legend", {}, "Report"), quantities.map((q) => h("label", {}, h("input", { type: "checkbox", checked: chosen.has(q.name), onchange: (e) => {
        if (e.target.checked) chosen.add(q.name);
        else chosen.delete(q.name);
    } }), q.meaning)));
    function draw(result, job) {
        const columns = result.columns ?? [], rows = result.rows ?? [], meaning = (c) => quantities.find((q) => q.name === c.name)?.meaning ?? words(c.name);
        const title = (c) => conditions.find((x) => x.name === c.name)?.label ?? words(c.name), unit_of = (c) => c.unit || conditions.find((x) => x.name === c.name)?.unit || "";
        const known = new Set(quantities.map((q) => q.name)), count = columns.filter((c) => !known.has(c.name)).length;
        const out = columns.slice(count);
        const pictures = count === 1
            ? out.map((c, i) => curves(`${meaning(c)} over ${title(columns[0])}`, { name: title(columns[0]), unit: unit_of(columns[0]), values: rows.map((r) => r[0]) }, [{ name: meaning(c), unit: c.unit, values: rows.map((r) => r[1 + i]) }], { height: 220 }))
            : out.map((c, i) => two_way(`${meaning(c)}${c.unit ? ", " + unit(c.unit) : ""}`, { name: title(columns[0]), unit: unit_of(columns[0]) }, { name: title(columns[1]), unit: unit_of(columns[1]) }, c, rows.map((r) => [r[0], r[1], r[2 + i]])));
        fill(shown, h("p", { class: "hint" }, `${result.designs} designs, ${result.failed} without an answer${result.why ? `: ${result.why}` : ""}.`), h("div", { class: "charts" }, pictures),
            table("All designs", columns.map((c, i) => ({ head: known.has(c.name) ? meaning(c) : title(c), unit: unit(unit_of(c)), get: (r) => r[i], show: (v) => number(v, 5) })), rows),
            (job.files ?? []).map((f) => h("p", {}, h("a", { href: job_file(job.job, f.path), download: f.path }, `Save ${f.path}`))));
    }
    const job = job_panel("sweep", "Sweep", { extra: () => ({ vary: vary(), report: [...chosen] }), show: draw });
    root.append(section("Sweep", fields, boxes, job.host, shown));
    return {
        show(now) {
            const key = (now.answer?.parameters ?? []).map((p) => p.name).join();
            if (key === names || !now.answer) return;
            names = key;
            axes.forEach((a) => (a.name = ""));
            draw_fields();
        },
        close: job.close,
    };
}

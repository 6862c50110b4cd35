// fire.js: the burn: conditions, heat balance, air, temperatures, a whole burn, bands and the surface map.
import { h, fill, section } from "../dom.js";
import { number, percent, with_unit, words } from "../format.js";
import { facts, table } from "../table.js";
import { condition_panel } from "../parameters.js";
import { conditions } from "../conditions.js";
import { job_panel } from "../jobs.js";
import { curves } from "../plot.js";
import { lazily, not_yet } from "./parts.js";
import { job_file } from "../api.js";
import { player } from "../play.js";

const ways = { transmitted_w: "light through the pane", glass_w: "from the pane", shell_w: "from the shell", gap_w: "air of the convection gap", below_w: "downwards", flue_w: "up the flue" };

function balance(b) {
    const rows = Object.entries(ways).map(([k, text]) => ({ text, w: b.balance?.[k] })), whole = rows.reduce((sum, r) => sum + (r.w ?? 0), 0);
    return h("figure", { class: "chart" }, h("figcaption", {}, "Where the heat goes"), h("ul", { class: "bars" }, rows.map((r) => {
        const bar = h("i", { "aria-hidden": "true" });
        bar.style.width = `${Math.max(0, (r.w / whole) * 100)}%`;
        return h("li", {}, h("span", {}, r.text), h("span", { class: "bar" }, bar), h("b", {}, `${number(r.w, 3)} W, ${percent(r.w / whole)}`));
    })), h("p", { class: "hint" }, `The balance closes to ${number(b.balance?.closure, 2)} of the heat.`));
}

function steady(a) {
    const b = a.burning;
    if (!b || b.why_not) return h("p", { class: "warn" }, b?.why_not ?? "The fire was not computed.");
    const f = b.fire;
    return [facts([["fuel", f.fuel], ["moisture", percent(f.moisture)], ["wood", with_unit(f.fuel_kg_s * 3600, "kg/h")], ["fire", with_unit(f.fuel_w / 1000, "kW")], ["into the room", with_unit(f.output_w / 1000, "kW")],
        ["efficiency", percent(f.efficiency)], ["excess air", number(f.lambda, 3)], ["carbon dioxide, dry", percent(f.co2_dry)], ["flue gas", with_unit(f.gas_kg_s * 1000, "g/s")], ["at the collar", with_unit(f.flue_c, "degC", 3)],
        ["dew point", with_unit(f.dew_point_c, "degC", 3)], ["firebox", with_unit(b.gases?.firebox_c, "degC", 3)], ["embers", with_unit(b.gases?.embers_c, "degC", 3)]]),
    balance(b),
    table("Air ways", [{ head: "opening", get: (o) => o.name }, { head: "kind", get: (o) => words(o.kind) }, { head: "free area", unit: "mm²", get: (o) => o.area_m2 * 1e6 }, { head: "flow", unit: "g/s", get: (o) => o.kg_s * 1000 },
        { head: "speed", unit: "m/s", get: (o) => o.velocity_m_s, digits: 3 }, { head: "pressure", unit: "Pa", get: (o) => o.pressure_pa, digits: 3 }], b.air),
    table("Temperatures", [{ head: "part", get: (p) => p.name }, { head: "material", get: (p) => p.material }, { head: "hot side", unit: "°C", get: (p) => p.hot_c, digits: 3 }, { head: "cold side", unit: "°C", get: (p) => p.cold_c, digits: 3 }], b.parts)];
}

function whole_burn(result, film) {
    const b = result.burning?.burn;
    film.close();
    if (!b) return h("p", { class: "warn" }, result.burning?.why_not ?? "No burn.");
    const at = { name: "time", unit: "min", values: b.samples.map((s) => s.time_s / 60) };
    const line = (name, u, get) => ({ name, unit: u, values: b.samples.map(get) });
    return [facts([["efficiency", percent(b.efficiency)], ["mean excess air", number(b.mean_lambda, 3)], ["mean flue gas", with_unit(b.mean_flue_c, "degC", 3)], ["closure", number(b.closure, 2)]]),
        film.show(result),
        curves("Temperatures over the burn", at, [line("firebox", "degC", (s) => s.firebox_c), line("flue gas", "degC", (s) => s.flue_c), line("lining", "degC", (s) => s.lining_c), line("pane", "degC", (s) => s.pane_c), line("shell", "degC", (s) => s.shell_c)]),
        curves("Wood and carbon dioxide", at, [line("wood left", "kg", (s) => s.wood_kg), line("carbon dioxide", "%", (s) => s.co2_dry * 100)])];
}

const band_names = { output_w: "output, W", efficiency: "efficiency, share", lambda: "excess air", flue_k: "flue gas, °C", pane_k: "pane, °C", wall_k: "wall, °C", shell_k: "shell, °C" };
const zero_c_k = 273.15;

function bands(result) {
    const b = result.burning?.bands;
    if (!b) return h("p", { class: "warn" }, "No bands.");
    const rows = Object.entries(band_names).filter(([k]) => b[k]).map(([k, text]) => {
        const shown = (v) => (v !== null && k.endsWith("_k") ? v - zero_c_k : v);
        return { text, mean: shown(b[k].mean), sigma: b[k].sigma, low: shown(b[k].low), high: shown(b[k].high) };
    });
    return table(`How sure: ${b.samples} draws`, [{ head: "quantity", get: (r) => r.text }, { head: "mean", get: (r) => r.mean }, { head: "spread", get: (r) => r.sigma, digits: 3 }, { head: "5 of 100 below", get: (r) => r.low }, { head: "5 of 100 above", get: (r) => r.high }], rows);
}

function map(result, job) {
    const m = result.burning?.map, file = job.files?.find((f) => f.path.endsWith(".glb"));
    if (!m) return h("p", { class: "warn" }, "No map.");
    return [table("Surface map", [{ head: "part", get: (p) => p.name }, { head: "mean", unit: "°C", get: (p) => p.mean_c, digits: 3 }, { head: "hottest", unit: "°C", get: (p) => p.most_c, digits: 3 },
        { head: "x", unit: "mm", get: (p) => p.hottest_x_mm }, { head: "y", unit: "mm", get: (p) => p.hottest_y_mm }, { head: "z", unit: "mm", get: (p) => p.hottest_z_mm }], m.parts),
    file ? h("p", {}, h("a", { href: job_file(job.job, file.path), download: file.path }, "Save the coloured stove (glTF)")) : null];
}

export function open(root, app) {
    const panel = condition_panel(conditions), now_host = h("div", {}), get_answer = () => app.now.answer;
    const places = [h("div", {}), h("div", {}), h("div", {})];
    const draw = (host, make) => (r, j) => fill(host, make(r, j));
    const draws = h("input", { type: "number", min: 20, max: 5000, value: 200 });
    const film = { now: null, show(result) {
        film.now = player(result.burning, result.pieces ? result : app.now.answer);
        return film.now.host;
    }, close() {
        film.now?.close();
        film.now = null;
    } };
    const jobs = [job_panel("through", "Burn a whole charge from cold", { show: draw(places[0], (r) => whole_burn(r, film)), get_answer }),
        job_panel("bands", "Draw the uncertain constants", { extra: () => ({ bands: Number(draws.value) || 200 }), show: draw(places[1], bands), get_answer,
            before: [h("label", { class: "choice" }, h("span", {}, "draws"), draws)] }),
        job_panel("map", "Compute every sheet's surface", { show: draw(places[2], map), get_answer })];
    root.append(section("Conditions", panel.host), section("Steady fire", now_host), section("Whole burn", jobs[0].host, places[0]),
        section("How sure it is", jobs[1].host, places[1]), section("Surface temperatures", jobs[2].host, places[2]));
    const show_now = lazily(now_host, (a) => a.burning, (a) => (a.burning ? steady(a) : not_yet("Fire")));
    return {
        show(now) {
            panel.show();
            show_now(now);
        },
        close() {
            film.close();
            jobs.forEach((j) => j.close());
        },
    };
}

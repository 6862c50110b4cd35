// pictures.test.mjs: the page's pictures: chimney, burn, colours, the place of a finding, two variants.
import assert from "node:assert/strict";
import { test } from "node:test";
import { browser_path, computed, open_bench, real } from "./bench.mjs";
import * as lua from "../src/house_text.js";

const options = { skip: browser_path ? false : "no chromium", timeout: 180000 };
const house = `-- A house.
house { name = "cottage", code = "England" } -- flue { not = one }
pipe { name = "pipe", diameter = 150*mm, length = 1*m, rise = 0.7*m }
liner { name = "in the rooms", diameter = 150*mm, length = 3*m, around = "heated" }
liner { name = "above the roof", diameter = 150*mm, length = 1*m, around = "outdoors" }
terminal { cowl = "rain cap" }
`;

/** What the server would say of a text: parts as described, one condition along them. */
function answer_to(text) {
    const blocks = lua.parse(text);
    const parts = blocks.map((b) => ({ name: lua.literal(text, b, "name"), kind: b.kind, round: true, width_mm: 150, depth_mm: 150, outer_mm: 200, length_m: lua.literal(text, b, "length", "m"), rise_m: 1,
        around: lua.literal(text, b, "around") ?? "heated", bends: 0, layers: [{ material: "mild steel", thickness_mm: 2 }] }));
    const lines = parts.map((p, i) => ({ name: p.name, entry_c: 280 - 20 * i, exit_c: 260 - 20 * i, around_c: 20, K: 0.1, wall_entry_c: 200 - 20 * i, wall_c: 180 - 20 * i, draught_pa: 4 * p.length_m, friction_pa: 1, entry_pa: 20 - 4 * i, step_pa: 1, exit_pa: 16 - 4 * i }));
    return { parts, along: { outside_c: 15, S_E: 1, P_L: 0, dew_point_c: 45, parts: lines } };
}

/** The mock's answers with a house that follows its text, and the server's operating point. */
async function with_house(page, mock) {
    const weathers = [];
    await page.route("**/api/house/*", (r) => r.fulfill({ body: house, contentType: "text/plain" }));
    await page.route("**/api/compute", async (r) => {
        const asked = r.request().postDataJSON(), { parts } = answer_to(asked.house_text ?? house);
        await r.fulfill({ json: { ...mock.answer, took_ms: 10, house: { ...mock.answer.house, parts } } });
    });
    await page.route("**/api/operating", async (r) => {
        const asked = r.request().postDataJSON();
        weathers.push(asked);
        const point = { state: "safe", draught_pa: 20 - asked.outside_c / 2 - asked.wind_pa, output_w: 6000, efficiency: 0.8, lambda: 2, gas_kg_s: 0.006, flue_c: 280, outlet_c: 200, wall_c: 120, dew_point_c: 45 };
        await r.fulfill({ json: { point, along: answer_to(asked.house_text ?? house).along } });
    });
    return weathers;
}

async function on_house_page(t) {
    const bench = await open_bench();
    t.after(bench.close);
    const weathers = await with_house(bench.page, bench.mock);
    await bench.page.reload();
    await computed(bench.page);
    await bench.page.getByRole("link", { name: "Flue and house" }).click();
    await bench.page.locator(".stretch-row").nth(2).waitFor();
    return { ...bench, weathers };
}

/** Waits for what the server has been asked. */
async function until(holds) {
    for (let i = 0; i < 600 && !holds(); i++) await new Promise((done) => setTimeout(done, 100));
    assert.ok(holds());
}

const drawn = (page, words) => page.locator(".flue-pictures svg").first().locator("text", { hasText: words }).first().waitFor();

test("a longer stretch is drawn at once and asked of the server as a working copy", options, async (t) => {
    if (real) return t.skip("the small server's house");
    const { page, weathers, complaints } = await on_house_page(t);
    await page.getByRole("img", { name: /Temperature along it/ }).waitFor();
    await page.getByRole("spinbutton", { name: "length, m" }).nth(1).fill("4.5");
    await drawn(page, "4.5 m");
    await page.waitForFunction(() => new URLSearchParams(location.hash.split("?")[1]).get("house_text")?.includes("4.5*m"));
    await until(() => /length = 4\.5\*m/.test(weathers.at(-1).house_text ?? ""));
    assert.match(weathers.at(-1).house_text, /^-- A house\./);
    await page.getByRole("button", { name: "Undo" }).click();
    await drawn(page, "3 m");
    assert.deepEqual(complaints, []);
});

test("stretches are added, put higher and taken out, and never fall out of order", options, async (t) => {
    if (real) return t.skip("the small server's house");
    const { page } = await on_house_page(t);
    await page.getByRole("button", { name: "Add one above: stretch 2" }).click();
    await drawn(page, "3  in the rooms 2");
    await page.getByRole("button", { name: "Higher: stretch 3" }).click();
    await drawn(page, "4  in the rooms 2");
    assert.ok(await page.getByRole("button", { name: "Lower: stretch 2" }).isDisabled()); // under it stands the pipe
    await page.getByRole("button", { name: "Take out: stretch 4" }).click();
    await page.waitForFunction(() => document.querySelectorAll(".stretch-row").length === 3);
    assert.ok(await page.getByRole("button", { name: "Back to the file" }).isDisabled()); // it is as the file again
    await page.getByRole("button", { name: "Higher: stretch 2" }).click();
    await drawn(page, "2  above the roof");
    await page.getByRole("button", { name: "Back to the file" }).click();
    await drawn(page, "2  in the rooms");
});

test("a length out of bounds is refused beside its field", options, async (t) => {
    if (real) return t.skip("the small server's house");
    const { page } = await on_house_page(t);
    await page.getByRole("spinbutton", { name: "length, m" }).nth(1).fill("0");
    await page.getByText("0.01 to 100 m", { exact: true }).waitFor();
    assert.doesNotMatch(page.url(), /house_text/);
});

test("on the real server a longer chimney draws more, and wind takes some of it", options, async (t) => {
    if (!real) return t.skip("the real server");
    const { page, close } = await open_bench("#house?stove=a.stove.lua&works=demo.works.lua&house=short.house.lua");
    t.after(close);
    await computed(page);
    const draught = async () => parseFloat(await page.locator(".flue-side .facts dd").first().textContent());
    const settled = async (holds) => {
        for (let i = 0; i < 600 && !holds(await draught()); i++) await page.waitForTimeout(100);
        assert.ok(holds(await draught()));
    };
    await page.locator(".flue-side .facts dd").first().waitFor();
    const before = await draught();
    await page.locator(".stretch-row[data-index='1']").getByRole("spinbutton", { name: "length, m" }).fill("5");
    await settled((pa) => pa > before + 2);
    const longer = await draught();
    await page.getByRole("spinbutton", { name: "wind on the outlet", exact: true }).fill("10");
    await settled((pa) => pa < longer - 2);
    await page.getByRole("img", { name: /Draught along it/ }).waitFor();
});

test("outside temperature and wind move the operating point and stay in the address", options, async (t) => {
    if (real) return t.skip("the small server's house");
    const { page, weathers } = await on_house_page(t);
    await page.getByText("12.5 Pa").first().waitFor();
    await page.getByRole("spinbutton", { name: "outside temperature", exact: true }).fill("-10");
    await page.getByRole("spinbutton", { name: "wind on the outlet", exact: true }).fill("5");
    await page.getByText("20 Pa", { exact: true }).waitFor();
    await until(() => weathers.at(-1).outside_c === -10 && weathers.at(-1).wind_pa === 5);
    await page.waitForFunction(() => /outside_c=-10/.test(location.hash) && /wind_pa=5/.test(location.hash));
});

test("a burn is played, paused and scrubbed", options, async (t) => {
    const bench = await open_bench();
    t.after(bench.close);
    if (!bench.mock) return t.skip("the mock's burn");
    const { page, mock } = bench, samples = [0, 1800, 3600, 5400].map((time_s, i) => ({ time_s, fuel_w: 4000 * i, output_w: 3000 * i, lambda: 3 - i / 2, gas_kg_s: 0.005, co2_dry: 0.08, wood_kg: 2 - i / 2, flue_c: 20 + 80 * i,
        firebox_c: 20 + 200 * i, pane_c: 20 + 100 * i, shell_c: 20 + 20 * i, lining_c: 20 + 150 * i, parts_c: [20 + 100 * i] }));
    const burning = { ...mock.answer.burning, parts: [{ name: "left side", hot_c: 300, cold_c: 290 }], burn: { efficiency: 0.8, mean_lambda: 2, mean_flue_c: 200, closure: 1e-4, samples } };
    const job = { job: 1, kind: "through", when: "2026-01-01T10:00:00Z", state: "done", progress: { done: 1, of: 1, text: "" }, files: [], error: null, errors: [] };
    await page.route("**/api/jobs", (r) => r.fulfill({ json: [job] }));
    await page.route("**/api/job/1", (r) => r.fulfill({ json: { ...job, result: { ...mock.answer, burning } } }));
    await page.reload();
    await computed(page);
    await page.getByRole("link", { name: "Fire and heat" }).click();
    await page.getByText("0:00 of 1:30 h").waitFor();
    await page.getByRole("button", { name: /Play/ }).click();
    await page.getByRole("button", { name: /Pause/ }).waitFor();
    await page.waitForFunction(() => Number(document.querySelector("[aria-label='Moment of the burn']").value) > 60);
    await page.getByRole("button", { name: /Pause/ }).click();
    const scrub = page.getByRole("slider", { name: "Moment of the burn" });
    await scrub.fill("3600");
    await page.getByText("1:00 of 1:30 h").waitFor();
    assert.equal(await scrub.getAttribute("aria-valuetext"), "1:00 hours after lighting");
    await page.locator(".film .facts", { hasText: "180 °C" }).waitFor(); // flue gas of that moment
    await page.getByRole("button", { name: "A minute on" }).click();
    await page.getByText("1:01 of 1:30 h").waitFor();
    assert.deepEqual(bench.complaints, []);
});

test("every way to colour the stove has a legend in words", options, async (t) => {
    const { page, close } = await open_bench();
    t.after(close);
    await computed(page);
    const words = { material: /S235|steel/, thickness: /mm/, temperature: /°C/, mass: /kg/, weld: /not welded|not computed/, fit: /limit|not computed/ };
    for (const [way, text] of Object.entries(words)) {
        await page.getByRole("combobox", { name: "Colour by" }).selectOption(way);
        await page.locator(".legend", { hasText: text }).waitFor();
    }
});

test("a finding opens with formula, judgement and the piece lit", options, async (t) => {
    const { page, mock, close } = await open_bench();
    t.after(close);
    if (mock) {
        Object.assign(mock.answer.findings[0], { verdict: "fails", study: "sheet", check: "least_hole", where: "A-03 left side", what: "hole at 20 degC", sense: "at_least", value: 6, limit: 4, unit: "mm", margin: 0.5 });
        await page.reload();
    }
    await computed(page);
    const finding = page.locator(".finding details").first();
    await finding.locator("summary").click();
    await finding.getByText("source of the limit").waitFor();
    if (!mock) return;
    await finding.getByText("least width of a hole ≥ s").waitFor();
    await finding.getByText("margin = (6 − 4) / 4 = 50 %").waitFor();
    await finding.getByText("hole at 20 °C").waitFor();
    await page.waitForFunction(() => document.querySelector(".lit img")?.src.startsWith("data:image/png"));
    assert.equal(await finding.locator(".lit img").getAttribute("alt"), "The stove with A-03 left side lit");
});

test("two variants stand side by side and turn together", options, async (t) => {
    const { page, mock, complaints, close } = await open_bench();
    t.after(close);
    if (!mock) return t.skip("keeps nothing on a real server");
    await computed(page);
    await page.getByRole("link", { name: "Variants" }).click();
    await page.getByRole("textbox", { name: "Name of the variant" }).fill("as drawn");
    await page.getByRole("button", { name: "Keep the design on the page" }).click();
    await page.waitForFunction(() => document.querySelectorAll(".twosides .stage[data-loaded]").length === 2);
    await page.getByText("Figures side by side").waitFor();
    assert.deepEqual(complaints, []);
});

test("the text of a house keeps what is not changed", () => {
    const changed = lua.set_field(house, 1, "length", "4*m");
    assert.equal(changed, house.replace("length = 3*m", "length = 4*m"));
    assert.equal(lua.swap(lua.swap(house, 1), 1), house);
    assert.equal(lua.remove(lua.copy(house, 2, "more"), 3), house);
    assert.equal(lua.parse(house).length, 3); // not the one in a comment
    assert.equal(lua.parse(`local f = function() flue { name = "x" } end`).length, 1);
    assert.equal(lua.parse(`pipe { name = "never closed"`).length, 0);
});

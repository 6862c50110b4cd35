// log.test.mjs: the works' log in a real browser against the real server: stoves, an inspection at the bench, the first fire on a phone.
import assert from "node:assert/strict";
import { test } from "node:test";
import { accessibility_faults, browser_path, open_bench, real } from "./bench.mjs";

const options = { skip: !browser_path ? "no chromium" : real ? false : "needs the real server: STOVEWRIGHT=program", timeout: 240000 };
const phone = { width: 390, height: 844 }, touch = { hasTouch: true, isMobile: true };
const where = "#log?stove=a.stove.lua&works=demo.works.lua&house=demo.house.lua";

/** Asks the server from the page, as the page does. */
const ask = (page, method, path, body) => page.evaluate(async ([m, p, b]) => {
    const reply = await fetch(p, { method: m, headers: { "X-Stovewright": "1", "Content-Type": "application/json" }, body: b && JSON.stringify(b) });
    return reply.json();
}, [method, path, body]);

async function add(page, kind, values) {
    const answer = await ask(page, "POST", `/api/log/add/${kind}`, { by: "test", at: "2026-03-05T12:00:00Z", records: [values] }); // sent twice it stands once
    return answer.ids?.[0];
}

/** A log with one stove; does nothing where it is there already. */
async function has_stove(page, serial) {
    if ((await ask(page, "GET", "/api/log/about")).state === "missing") await ask(page, "POST", "/api/log/new", {});
    await add(page, "design", { name: "T-1", part: "stove", text: { file: "a.stove.lua" } });
    await add(page, "batch", { name: "T-B", design: "T-1", stoves: 9 });
    await add(page, "serial", { number: serial, batch: "T-B" });
    await page.reload();
}

const task = (page, name) => page.getByRole("group", { name: "What to do in the log" }).getByRole("button", { name, exact: true }).click();
const records = async (page, kind, serial) => (await ask(page, "GET", `/api/log/list/${kind}?all=1&serial=${serial}`)).records;

async function open_first_fire(page, serial) {
    await task(page, "First fire");
    await page.getByRole("textbox", { name: /Serial number on the plate/ }).or(page.getByRole("combobox", { name: /Serial number on the plate/ })).fill(serial);
    await page.getByRole("combobox", { name: /^House/ }).last().fill("H-test");
    await page.getByLabel(/Entered by/).fill("cd");
}

test("a log is started and a batch of the design on the page gets its numbers", options, async (t) => {
    const { page, complaints, strangers, close } = await open_bench(where);
    t.after(close);
    await page.getByRole("button", { name: "Start a log here" }).click();
    await task(page, "Batches and sheets");
    await page.getByText("Start a batch of the design on the page").click();
    const form = page.getByRole("form", { name: "New batch of the design on the page" });
    await form.getByRole("button", { name: "Start the batch" }).click();
    await form.getByText("is needed").first().waitFor(); // nothing was filled in, and that is said
    for (const [label, text] of [[/^Design/, "A-1"], [/^Batch/, "B-1"], [/^Stoves/, "3"], [/^First serial/, "S-0009"], [/^Entered by/, "ab"]]) await form.getByLabel(label).fill(text);
    await form.getByRole("button", { name: "Start the batch" }).click();
    await form.getByText("3 stoves: S-0009 to S-0011.").waitFor();
    await task(page, "Stoves");
    await page.getByRole("searchbox", { name: /Part of a number/ }).fill("s-001");
    await page.getByRole("button", { name: "Find", exact: true }).click();
    await page.getByRole("button", { name: "S-0011" }).click();
    await page.getByRole("heading", { name: "History of S-0011" }).waitFor();
    assert.match(await page.locator(".entries").textContent(), /batch no\. 1.*name: B-1, design: A-1, stoves: 3/s);
    assert.deepEqual(complaints, []);
    assert.deepEqual(strangers, []);
});

test("an inspection is judged at once, saved, and leads to a non-conformity", options, async (t) => {
    const { page, complaints, close } = await open_bench(where);
    t.after(close);
    await has_stove(page, "I-1");
    await task(page, "Inspection");
    const form = page.getByRole("form", { name: "Inspection" }), cards = form.locator(".readings").first().locator(".reading");
    await cards.nth(1).waitFor({ timeout: 60000 });
    await form.getByLabel(/^Serial number/).fill("I-1");
    await cards.nth(0).getByRole("textbox").fill("26,0");
    await cards.nth(0).getByText("holds").waitFor();
    await cards.nth(1).getByRole("textbox").fill("9.5");
    await cards.nth(1).getByText(/does not hold/).waitFor();
    await form.getByRole("button", { name: "Add a measurement of your own" }).click();
    for (const [label, text] of [["what was measured", "door gap"], ["value", "1.4"], ["least allowed", "1"], ["most allowed", "2"], ["unit", "mm"]]) await form.locator(".own").getByLabel(label).fill(text);
    await form.getByRole("button", { name: "Save the inspection" }).click();
    await form.getByText("is needed").first().waitFor(); // who enters it
    await form.getByLabel(/Entered by/).fill("ab");
    await form.getByRole("button", { name: "Save the inspection" }).click();
    await form.getByText("3 measurements of I-1.").waitFor();
    const saved = await records(page, "inspection", "I-1");
    assert.deepEqual(saved.map((r) => r.verdict).sort(), ["holds", "holds", "outside"]);
    assert.ok(saved.every((r) => r.by === "ab"));
    assert.equal(await cards.nth(0).getByRole("textbox").inputValue(), ""); // ready for the next stove
    await page.getByRole("button", { name: "Enter a non-conformity" }).click();
    const fault = page.getByRole("form", { name: "New non-conformity" });
    assert.match(await fault.getByLabel(/^what/).inputValue(), /9\.5 mm/);
    await fault.getByLabel(/^batch/).fill("T-B");
    await fault.getByLabel(/^weight/).selectOption("minor");
    await fault.getByLabel(/^decision/).selectOption("open");
    await fault.getByRole("button", { name: "Save the non-conformity" }).click();
    await fault.getByText("✓ Recorded.").waitFor();
    assert.equal((await records(page, "nonconformity", "I-1")).length, 1);
    assert.deepEqual(complaints, []);
});

test("a first fire is filled in on a phone: big fields, bands of this house, verdicts at once", options, async (t) => {
    const { page, complaints, close } = await open_bench(where, phone, touch);
    t.after(close);
    await has_stove(page, "F-1");
    await open_first_fire(page, "F-1");
    const card = (name) => page.locator(".reading", { has: page.getByRole("heading", { name, exact: true }) });
    await card("hot draught").getByText("10 to 25 Pa").waitFor({ timeout: 60000 });
    await card("hot draught").locator(".big").fill("14");
    await card("hot draught").getByText("holds", { exact: false }).first().waitFor();
    await card("standing draught").locator(".big").fill("1");
    await card("standing draught").getByRole("button", { name: /other sign/ }).click();
    assert.equal(await card("standing draught").locator(".big").inputValue(), "-1");
    await card("standing draught").getByText(/do not light/).waitFor();
    await card("standing draught").getByLabel("what was found or done").fill("cold flue, warmed by hand");
    await card("door seal").getByRole("radio", { name: "Yes" }).check();
    await card("papers").getByRole("radio", { name: "No" }).check();
    await card("papers").getByText(/does not hold: hand them over/).waitFor();
    for (const box of [...await page.locator(".reading input.big").all(), ...await page.locator(".yesno span").all(), page.getByRole("button", { name: "Save the first-fire record" })]) {
        const size = await box.boundingBox();
        assert.ok(size.height >= 44, `only ${size.height} px high`);
    }
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "sticks out sideways");
    assert.deepEqual(await accessibility_faults(page), []);
    await page.reload(); // the draft stays
    await card("hot draught").locator(".big").waitFor({ timeout: 60000 });
    assert.equal(await card("hot draught").locator(".big").inputValue(), "14");
    await page.getByRole("button", { name: "Save the first-fire record" }).click();
    await page.getByText("4 readings of F-1 in H-test.").waitFor();
    const saved = await records(page, "firstfire", "F-1"), of = (name) => saved.find((r) => r.values.reading === name);
    assert.equal(of("standing_draught_pa").values.note, "cold flue, warmed by hand");
    assert.deepEqual([of("hot_draught_pa").verdict, of("standing_draught_pa").verdict, of("door_seal").verdict, of("papers").verdict], ["holds", "outside", "holds", "outside"]);
    assert.deepEqual([of("papers").values.low, of("papers").values.high], [1, 1]);
    assert.equal((await ask(page, "GET", "/api/log/list/house?name=H-test")).records.length, 1); // the house came with it
    assert.deepEqual(complaints, []);
});

test("a record entered without a connection is kept, sent again, and stands once", options, async (t) => {
    const { page, close } = await open_bench(where, phone, touch);
    t.after(close);
    await has_stove(page, "L-1");
    await open_first_fire(page, "L-1");
    const field = page.getByRole("textbox", { name: "flue gas in degC" });
    await field.waitFor({ timeout: 60000 });
    await field.fill("330");
    let heard = 0;
    await page.route("**/api/log/add/firstfire", async (route) => { // it arrives, but the answer is lost
        heard += 1;
        if (heard === 1) await route.fetch();
        await route.abort("connectionreset");
    });
    await page.getByRole("button", { name: "Save the first-fire record" }).click();
    await page.getByText("… Not recorded yet.").waitFor();
    await page.getByText(/sent again by itself/).waitFor();
    await page.reload();
    await page.getByRole("heading", { name: /1 entry waits on this device/ }).waitFor();
    await page.getByRole("button", { name: "Send now" }).click();
    await page.unroute("**/api/log/add/firstfire");
    await page.getByRole("button", { name: "Send now" }).click({ timeout: 3000 }).catch(() => {}); // it may be sent by itself before
    await page.locator(".waiting").waitFor({ state: "hidden" });
    assert.equal((await records(page, "firstfire", "L-1")).length, 1);
});

test("what the server refuses is told in the form and stays in its fields", options, async (t) => {
    const { page, close } = await open_bench(where, phone, touch);
    t.after(close);
    await has_stove(page, "R-1");
    await task(page, "Service");
    const form = page.getByRole("form", { name: "New service" });
    await form.getByLabel(/^serial/).fill("R-99");
    await form.getByLabel(/^what/).fill("swept");
    await form.getByLabel(/^state/).selectOption("good");
    await form.getByLabel(/Entered by/).fill("ab");
    await form.getByRole("button", { name: "Save the service" }).click();
    await form.getByText(/there is no serial "R-99"; add it first/).first().waitFor();
    assert.equal(await form.getByLabel(/^what/).inputValue(), "swept");
    assert.equal(await page.locator(".waiting").isHidden(), true);
});

test("a record is corrected by a new one and withdrawn, with the keyboard alone", options, async (t) => {
    const { page, complaints, close } = await open_bench(where);
    t.after(close);
    await has_stove(page, "K-1");
    await add(page, "inspection", { serial: "K-1", feature: "foot", value: 7, high: 2, unit: "mm" });
    await task(page, "Stoves");
    await page.getByRole("button", { name: "K-1" }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: /^Correct inspection/ }).focus();
    await page.keyboard.press("Enter");
    const form = page.getByRole("form", { name: /^Correction of inspection/ });
    await form.getByLabel(/^value/).fill("1.7");
    await form.getByLabel(/^Why/).fill("misread");
    await form.getByLabel(/Entered by/).fill("cd");
    await page.keyboard.press("Enter");
    await page.getByText(/corrects no\. \d+: misread/).waitFor();
    await page.locator(".entries li.past .said", { hasText: "7 mm" }).waitFor();
    const both = await records(page, "inspection", "K-1");
    assert.deepEqual(both.map((r) => r.values.value).sort(), [1.7, 7]);
    await page.getByRole("button", { name: /^Withdraw inspection/ }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("form", { name: /^Withdrawal/ }).getByLabel(/^Why/).fill("other stove");
    await page.keyboard.press("Enter");
    await page.getByText(/withdraws no\. \d+: other stove/).waitFor();
    assert.deepEqual(complaints, []);
});

test("every task of the log passes the accessibility rules, dark and light, and fits a phone", options, async (t) => {
    const { page, complaints, close } = await open_bench(where, phone, touch);
    t.after(close);
    await has_stove(page, "X-1");
    for (const shade of ["dark", "light"]) {
        await page.evaluate((s) => (document.documentElement.dataset.shade = s), shade);
        for (const name of ["Stoves", "First fire", "Inspection", "Non-conformity", "Service", "Batches and sheets", "Any record"]) {
            await task(page, name);
            await page.waitForTimeout(600);
            assert.deepEqual(await accessibility_faults(page), [], `${name}, ${shade}`);
            assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${name} sticks out sideways`);
        }
    }
    assert.deepEqual(complaints, []);
});

test("nothing at the head is cut on a phone", options, async (t) => {
    const { page, close } = await open_bench(where, phone, touch);
    t.after(close);
    await page.locator(".mantel select").first().waitFor();
    const cut = await page.locator(".mantel select").evaluateAll((all) => all.filter((s) => {
        const probe = document.createElement("canvas").getContext("2d"), style = getComputedStyle(s);
        probe.font = style.font;
        const room = s.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - 20; // 20: the arrow
        return probe.measureText(s.selectedOptions[0]?.textContent ?? "").width > room;
    }).map((s) => s.selectedOptions[0].textContent));
    assert.deepEqual(cut, []);
});

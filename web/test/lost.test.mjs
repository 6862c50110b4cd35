// lost.test.mjs: the fitter's phone in a cold house without a connection: the page opens, forms keep their drafts, entries wait on the device,
// and each is recorded once when the server is there again. On the real server, which one test ends and starts again.
import assert from "node:assert/strict";
import { rmSync } from "node:fs";
import { test } from "node:test";
import { browser_path, make_folder, open_bench, real, start_program } from "./bench.mjs";

const options = { skip: !browser_path ? "no chromium" : real && process.env.STOVEWRIGHT ? false : "needs the real server: STOVEWRIGHT=program", timeout: 240000 };
const phone = { width: 390, height: 844 }, touch = { hasTouch: true, isMobile: true };
const where = "#log?stove=a.stove.lua&works=demo.works.lua&house=demo.house.lua";

const ask = (page, method, path, body) => page.evaluate(async ([m, p, b]) => {
    const reply = await fetch(p, { method: m, headers: { "X-Stovewright": "1", "Content-Type": "application/json" }, body: b && JSON.stringify(b) });
    return reply.json();
}, [method, path, body]);
const count = async (page, path) => (await ask(page, "GET", path)).records.length;

async function has_stove(page, serial) {
    if ((await ask(page, "GET", "/api/log/about")).state === "missing") await ask(page, "POST", "/api/log/new", {});
    const add = (kind, values) => ask(page, "POST", `/api/log/add/${kind}`, { by: "test", at: "2026-03-05T12:00:00Z", records: [values] });
    await add("design", { name: "T-1", part: "stove", text: { file: "a.stove.lua" } });
    await add("batch", { name: "T-B", design: "T-1", stoves: 9 });
    await add("serial", { number: serial, batch: "T-B" });
    await page.reload();
}

const task = (page, name) => page.getByRole("group", { name: "What to do in the log" }).getByRole("button", { name, exact: true }).click();
const reading = (page, name) => page.locator(".reading", { has: page.getByRole("heading", { name, exact: true }) }).locator("input.big");
const no_line = (page) => page.getByText("No connection to the server.");
/** The page's own files are kept from then on. */
const is_kept = (page) => page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    for (;;) {
        if ((await (await caches.open("stovewright-page")).keys()).length >= 4) return;
        await new Promise((done) => setTimeout(done, 50));
    }
});

async function name_it(page, serial, house) {
    await page.getByRole("combobox", { name: /Serial number on the plate/ }).fill(serial);
    await page.getByRole("combobox", { name: /^House/ }).last().fill(house);
    await page.getByLabel(/Entered by/).fill("cd");
}

test("a first fire without a connection: draft and entry outlive a reload, bands stay, all is recorded once", options, async (t) => {
    const { page, context, close } = await open_bench(where, phone, touch);
    t.after(close);
    await has_stove(page, "O-1");
    await is_kept(page);
    await task(page, "First fire");
    await reading(page, "flue gas").waitFor({ timeout: 60000 });
    await name_it(page, "O-1", "H-cold");
    await reading(page, "flue gas").fill("330");
    await context.setOffline(true);
    await page.reload(); // in the middle of it
    await no_line(page).waitFor();
    await page.getByText(/as computed on/).waitFor({ timeout: 60000 });
    assert.equal(await reading(page, "flue gas").inputValue(), "330");
    await reading(page, "hot draught").fill("14");
    await page.getByRole("button", { name: "Save the first-fire record" }).click();
    await page.getByText("… Not recorded yet.").waitFor();
    await page.getByRole("heading", { name: /2 entries wait on this device/ }).waitFor(); // the house and its readings
    await page.reload();
    await page.getByRole("heading", { name: /2 entries wait on this device/ }).waitFor();
    await page.getByText(/not sent/).first().waitFor();
    await reading(page, "hot draught").waitFor({ timeout: 60000 });
    await reading(page, "hot draught").fill("15"); // the next one is begun, and stays a draft
    await context.setOffline(false);
    await page.locator(".waiting:not(.outcome)").waitFor({ state: "hidden", timeout: 60000 });
    await no_line(page).waitFor({ state: "hidden" });
    assert.equal(await reading(page, "hot draught").inputValue(), "15");
    assert.equal(await count(page, "/api/log/list/firstfire?all=1&serial=O-1"), 2);
    assert.equal(await count(page, "/api/log/list/house?all=1&name=H-cold"), 1);
});

test("an inspection while the server is away: the page opens without it, the entry is sent to the one that comes back, once", options, async (t) => {
    const folder = make_folder();
    t.after(() => rmSync(folder, { recursive: true, force: true }));
    let server = start_program(process.env.STOVEWRIGHT, folder);
    const { address } = await server.listens;
    const { page, context, close } = await open_bench(where, phone, touch, { address, folder, mock: null });
    t.after(close);
    await has_stove(page, "A-1");
    await is_kept(page);
    await task(page, "Inspection");
    await page.getByRole("form", { name: "Inspection" }).locator(".readings").first().locator(".reading").nth(1).waitFor({ timeout: 60000 });
    await server.stop();
    await page.reload();
    await no_line(page).waitFor();
    const form = page.getByRole("form", { name: "Inspection" }), first = form.locator(".readings").first().locator(".reading").first();
    await first.getByRole("textbox").fill("0.1"); // of the plan as it last came
    await form.getByLabel(/^Serial number/).fill("A-1");
    await form.getByLabel(/Entered by/).fill("ab");
    await page.reload();
    await first.waitFor();
    assert.equal(await first.getByRole("textbox").inputValue(), "0.1");
    await form.getByLabel(/Entered by/).fill("ab");
    await form.getByRole("button", { name: "Save the inspection" }).click();
    await page.getByRole("heading", { name: /1 entry waits on this device/ }).waitFor();
    const stored = await page.evaluate(() => localStorage.getItem("stovewright-log-waiting"));
    await page.reload();
    await page.getByRole("heading", { name: /1 entry waits on this device/ }).waitFor();
    server = start_program(process.env.STOVEWRIGHT, folder, new URL(address).port); // knows nothing of the old session
    t.after(() => server.stop());
    await server.listens;
    await page.locator(".waiting:not(.outcome)").waitFor({ state: "hidden", timeout: 60000 });
    assert.equal(await count(page, "/api/log/list/inspection?all=1&serial=A-1"), 1);
    const other = await context.newPage(); // as if the answer had been lost: it still waits, and is sent once more
    await other.goto(`${address}/${where}`);
    await other.evaluate((s) => localStorage.setItem("stovewright-log-waiting", s), stored);
    await other.reload();
    await other.waitForFunction(() => JSON.parse(localStorage.getItem("stovewright-log-waiting")).length === 0, null, { timeout: 60000 });
    assert.equal(await count(page, "/api/log/list/inspection?all=1&serial=A-1"), 1);
});

test("two devices name the same new house without a connection: it is recorded once and nothing is refused", options, async (t) => {
    const { page, context, close } = await open_bench(where, phone, touch);
    t.after(close);
    await has_stove(page, "O-2");
    await task(page, "First fire");
    await reading(page, "flue gas").waitFor({ timeout: 60000 });
    await name_it(page, "O-2", "H-twice");
    await reading(page, "flue gas").fill("330");
    await context.setOffline(true);
    await page.getByRole("button", { name: "Save the first-fire record" }).click();
    await page.getByRole("heading", { name: /2 entries wait on this device/ }).waitFor();
    const other = await open_bench(where, phone, touch);
    t.after(other.close);
    await ask(other.page, "POST", "/api/log/add/house", { by: "test", at: "2026-03-05T12:00:00Z", records: [{ name: "H-twice", flue: "holds" }] });
    await context.setOffline(false);
    await page.locator(".waiting:not(.outcome)").waitFor({ state: "hidden", timeout: 60000 });
    await page.getByText("✓ Recorded.").waitFor(); // the form says so, too
    assert.equal(await count(page, "/api/log/list/house?all=1&name=H-twice"), 1);
    assert.equal(await count(page, "/api/log/list/firstfire?all=1&serial=O-2"), 1);
});

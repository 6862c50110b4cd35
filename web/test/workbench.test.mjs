// workbench.test.mjs: what a designer does with the page, in a real browser.
import assert from "node:assert/strict";
import { test } from "node:test";
import { accessibility_faults, computed, open_bench, real } from "./bench.mjs";

const options = { timeout: 300000 };
const figure = (page, name) => page.locator(".figure", { has: page.getByText(name, { exact: true }) }).locator("b");

test("dragging a slider changes mass, findings and the solid", options, async (t) => {
    const { page, complaints, strangers, close } = await open_bench();
    t.after(close);
    await computed(page);
    const before = await figure(page, "mass").textContent();
    const loaded = await page.locator(".stage").getAttribute("data-loaded");
    const box = await page.getByRole("slider", { name: "firebox width, slider" }).boundingBox();
    await page.mouse.move(box.x + box.width * 0.22, box.y + box.height / 2);
    await page.mouse.down();
    for (let i = 1; i <= 12; i++) await page.mouse.move(box.x + box.width * (0.22 + 0.05 * i), box.y + box.height / 2);
    await page.mouse.up();
    await page.waitForFunction((b) => document.querySelector(".figure b").textContent !== b, before);
    await page.waitForFunction((n) => document.querySelector(".stage").dataset.loaded > n, loaded);
    await computed(page);
    assert.ok(Number(await figure(page, "mass").textContent()) > Number(before));
    assert.match(page.url(), /set\.firebox_width=\d/);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.waitForFunction((b) => document.querySelector(".figure b").textContent === b, before);
    assert.doesNotMatch(page.url(), /firebox_width/);
    assert.deepEqual(complaints, []);
    assert.deepEqual(strangers, []);
});

test("a link reopens the same design", options, async (t) => {
    const { page, close } = await open_bench("#fire?stove=a.stove.lua&works=demo.works.lua&set.firebox_width=380mm&with.draught_pa=15");
    t.after(close);
    await computed(page);
    assert.equal(await page.getByRole("spinbutton", { name: "draught", exact: true }).inputValue(), "15");
    await page.getByRole("link", { name: "Design" }).click();
    await page.waitForFunction(() => document.querySelector(".parameter input[type=number]")?.value === "380");
});

test("a finding opens with its number, limit and source", options, async (t) => {
    const { page, close } = await open_bench();
    t.after(close);
    await computed(page);
    const first = page.locator(".finding details").first();
    await first.locator("summary").click();
    await first.getByText("source of the limit").waitFor();
    const text = await first.textContent();
    assert.match(text, /in the description.*line \d/);
});

test("a chosen piece shows its flat and its mass", options, async (t) => {
    const { page, close } = await open_bench();
    t.after(close);
    await computed(page);
    await page.getByRole("combobox", { name: "Piece", exact: true }).selectOption("A-03");
    await page.getByRole("img", { name: /Flat of A-03/ }).waitFor();
    await page.getByRole("heading", { name: "A-03 left side" }).waitFor();
});

test("every page opens without a complaint and passes the accessibility rules", options, async (t) => {
    const { page, complaints, strangers, close } = await open_bench();
    t.after(close);
    await computed(page);
    const faults = [];
    for (const link of await page.locator(".tasks a").all()) {
        await link.click();
        await page.waitForTimeout(300);
        for (const fault of await accessibility_faults(page)) faults.push(`${await link.textContent()}: ${fault}`);
    }
    assert.deepEqual(faults, []);
    assert.deepEqual(complaints.filter((c) => real || !/501/.test(c)), []); // what the small server does not answer
    assert.deepEqual(strangers, []);
});

test("a nest runs in the background and its sheets appear", { ...options, skip: !real && "the small server nests nothing" }, async (t) => {
    const { page, complaints, close } = await open_bench("#sheets?stove=a.stove.lua&works=demo.works.lua");
    t.after(close);
    await page.getByLabel("search for, seconds").fill("1");
    await page.getByRole("button", { name: "Nest now" }).click();
    const map = page.locator("img[alt^='Nest map']").first();
    await map.waitFor({ timeout: 60000 });
    await page.waitForFunction(() => document.querySelector("img[alt^='Nest map']").naturalWidth > 0);
    await page.getByText(/nest done/i).waitFor();
    assert.deepEqual(complaints, []);
});

test("in print there are figures and findings, no controls", options, async (t) => {
    const { page, close } = await open_bench();
    t.after(close);
    await computed(page);
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    for (const gone of [".tasks", "input[type=range]", ".acts"]) assert.equal(await page.locator(gone).first().isVisible(), false, `${gone} is printed`);
    assert.ok(await page.locator(".finding").first().isVisible());
    assert.ok(await page.locator(".figure b").first().isVisible());
    const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    assert.match(ground, /^(rgb\(255, 255, 255\)|rgba\(0, 0, 0, 0\))$/);
    const pdf = await page.pdf({ format: "A4" });
    assert.ok(pdf.subarray(0, 5).toString() === "%PDF-" && pdf.length > 20000);
});

test("who reads with the keyboard reaches the parameters first", options, async (t) => {
    const { page, close } = await open_bench();
    t.after(close);
    await computed(page);
    await page.keyboard.press("Tab");
    assert.equal(await page.evaluate(() => document.activeElement.id), "skip");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Tab");
    assert.ok(await page.evaluate(() => document.getElementById("work").contains(document.activeElement)));
});

test("on a narrow screen nothing sticks out sideways", options, async (t) => {
    const { page, close } = await open_bench("", { width: 390, height: 800 });
    t.after(close);
    await computed(page);
    for (const link of await page.locator(".tasks a").all()) {
        await link.click();
        await page.waitForTimeout(200);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(over <= 0, `${await link.textContent()} is ${over} px too wide`);
    }
});

test("markup in a description is shown as text", options, async (t) => {
    const { page, mock, close } = await open_bench();
    t.after(close);
    if (mock) {
        mock.answer.findings[0].what = "<img src=x onerror=alert(1)>";
        await page.reload();
        await computed(page);
        await page.getByText("<img src=x onerror=alert(1)>").first().waitFor();
    }
});

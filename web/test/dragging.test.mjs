// dragging.test.mjs: while a slider moves the picture follows; when it rests the picture is that of the last input. On the real server.
import assert from "node:assert/strict";
import { test } from "node:test";
import { computed, open_bench, real } from "./bench.mjs";

const options = { timeout: 300000, skip: !real && "the small server has one box" };

/** Moves the first slider through values so many ms apart; the values of the pictures that were shown meanwhile. */
const drag = (page, values, apart_ms) => page.evaluate(async ([list, ms]) => {
    const slider = document.querySelector("input[type=range]"), stage = document.querySelector(".stage"), seen = [];
    const look = new MutationObserver(() => seen.push(stage.dataset.box));
    look.observe(stage, { attributeFilter: ["data-loaded"] });
    for (const value of list) {
        slider.value = String(value);
        slider.dispatchEvent(new Event("input", { bubbles: true }));
        await new Promise((done) => setTimeout(done, ms));
    }
    look.disconnect();
    return seen;
}, [values, apart_ms]);

const box = (page) => page.locator(".stage").getAttribute("data-box");
/** The fine picture, with its lines, of a design that rests. */
const at_rest = (page) => page.waitForFunction(() => {
    const { lined, drawn } = document.querySelector(".stage").dataset;
    return lined !== undefined && lined === drawn;
});

/** Comes to the picture of that box, and stays there once all is computed and drawn finely. */
async function comes_to_rest_at(page, wanted) {
    await page.waitForFunction((b) => document.querySelector(".stage").dataset.box === b, wanted, { timeout: 60000 });
    await computed(page);
    await at_rest(page);
    await page.waitForTimeout(500);
    assert.equal(await box(page), wanted);
}

async function box_of(width) {
    const { page, close } = await open_bench(`#design?stove=a.stove.lua&works=demo.works.lua&set.firebox_width=${width}mm`);
    await page.waitForFunction(() => document.querySelector(".stage")?.dataset.box);
    const found = await box(page);
    await close();
    return found;
}

test("after many inputs at once the picture is that of the last, whichever answers were on their way", options, async (t) => {
    const { page, complaints, close } = await open_bench();
    t.after(close);
    await computed(page);
    for (const last of [377, 343]) {
        const wanted = await box_of(last);
        await drag(page, [350, 360, 370, 380, 390, 400, 410, 420, 335, 330, last], 7);
        await comes_to_rest_at(page, wanted);
    }
    assert.deepEqual(complaints, []);
});

test("pictures are shown while the slider still moves", options, async (t) => {
    const { page, close } = await open_bench();
    t.after(close);
    await computed(page);
    const values = Array.from({ length: 150 }, (_, i) => 330 + 0.5 * i), seen = await drag(page, values, 20);
    assert.ok(new Set(seen).size >= 3, `${new Set(seen).size} pictures in 3 s`);
    const widths = seen.map((b) => parseFloat(b));
    assert.deepEqual(widths, [...widths].sort((a, b) => a - b)); // never an older one after a newer
});

test("geometry the page holds is not sent again", options, async (t) => {
    const { page, close } = await open_bench();
    t.after(close);
    await computed(page);
    await at_rest(page);
    const answers = [];
    page.on("response", (r) => r.url().endsWith("/api/picture") && answers.push({ asked: r.request().postDataJSON(), body: r.body() }));
    const there = async (count) => {
        for (let i = 0; i < 600 && answers.length < count; i++) await page.waitForTimeout(100);
        return Promise.all(answers.map(async (a) => ({ asked: a.asked, bytes: (await a.body).length })));
    };
    await drag(page, [380], 0);
    const [rough, fine] = await there(2);
    assert.ok(rough.asked.chord_mm > 0 && fine.asked.chord_mm === undefined && rough.asked.held.length > 20);
    await page.getByRole("button", { name: "Undo" }).click();
    const back = (await there(4)).at(-1);
    assert.equal(back.asked.chord_mm, undefined);
    assert.ok(back.bytes < 60000, `${back.bytes} bytes for what was there a moment ago`); // names and places alone
});

test("a picture that lacks geometry is asked for whole", options, async (t) => {
    const { page, complaints, close } = await open_bench();
    t.after(close);
    await computed(page);
    await at_rest(page);
    let spoilt = 0;
    await page.route("**/api/picture", async (route) => {
        const asked = route.request().postDataJSON();
        if (spoilt > 0 || asked.held.length === 0) return route.continue();
        spoilt += 1; // as if the page had said it held all of the new design
        const whole = await (await route.fetch({ postData: { ...asked, held: [] } })).body();
        const root = JSON.parse(whole.subarray(20, 20 + whole.readUInt32LE(12)).toString());
        const held = root.nodes.map((n) => n.extras?.shape).filter(Boolean);
        return route.fulfill({ response: await route.fetch({ postData: { ...asked, held } }) });
    });
    const wanted = await box_of(391);
    await drag(page, [391], 0);
    await comes_to_rest_at(page, wanted);
    assert.equal(spoilt, 1);
    assert.deepEqual(complaints, []);
});

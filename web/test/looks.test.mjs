// looks.test.mjs: pages compared with stored pictures of them. A picture is stored as the mean colours of 64 x 40 fields, so that neither
// a new number nor another browser's letters count, but a part that is gone, moved or of another colour does.
//   LOOKS=write STOVEWRIGHT=program node --test test/looks.test.mjs   stores them again: look at the pages by eye before.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { test } from "node:test";
import { computed, open_bench, real } from "./bench.mjs";

const file = new URL("fixture/looks.json", import.meta.url).pathname, write = process.env.LOOKS === "write";
const options = { timeout: 300000, skip: !real && "of the real server's pages" };
const size = { width: 1280, height: 800 }, columns = 64, rows = 40;
const nearly = 24, most_share = 0.04; // of 255 in a channel; fields that may differ by more

const stored = write ? {} : JSON.parse(readFileSync(file, "utf8"));

/** Mean red, green and blue of each field, 0 to 255, as one text of hex digits. */
async function fields_of(page) {
    const picture = (await page.screenshot()).toString("base64"), blank = await page.context().newPage();
    const text = await blank.evaluate(async ([png, w, h]) => {
        const image = new Image(), canvas = Object.assign(document.createElement("canvas"), { width: w, height: h }), pen = canvas.getContext("2d");
        image.src = `data:image/png;base64,${png}`;
        await image.decode();
        let bitmap = await createImageBitmap(image);
        while (bitmap.width > 2 * w) bitmap = await createImageBitmap(bitmap, { resizeWidth: Math.max(w, bitmap.width >> 1), resizeHeight: Math.max(h, bitmap.height >> 1), resizeQuality: "high" });
        pen.drawImage(await createImageBitmap(bitmap, { resizeWidth: w, resizeHeight: h, resizeQuality: "high" }), 0, 0);
        const { data } = pen.getImageData(0, 0, w, h);
        return [...data].filter((_, i) => i % 4 !== 3).map((v) => v.toString(16).padStart(2, "0")).join("");
    }, [picture, columns, rows]);
    await blank.close();
    return text;
}

/** Share of the fields that differ visibly. */
function difference(a, b) {
    const at = (text, i) => parseInt(text.slice(2 * i, 2 * i + 2), 16);
    let differs = 0;
    for (let f = 0; f < columns * rows; f++) differs += [0, 1, 2].some((k) => Math.abs(at(a, 3 * f + k) - at(b, 3 * f + k)) > nearly);
    return differs / (columns * rows);
}

async function opened(t, hash, shade) {
    const bench = await open_bench(hash, size, { colorScheme: shade });
    t.after(bench.close);
    await computed(bench.page);
    if (hash === "") await bench.page.waitForFunction(() => {
        const { lined, drawn } = document.querySelector(".stage").dataset;
        return lined !== undefined && lined === drawn;
    });
    await bench.page.waitForTimeout(500);
    return bench.page;
}

for (const [name, hash, shade] of [["design", "", "light"], ["design, dark", "", "dark"], ["calculator", "#reckon", "light"]])
    test(`the page looks as it did when it was last looked at: ${name}`, options, async (t) => {
        const page = await opened(t, hash, shade), fields = await fields_of(page);
        if (write) {
            stored[name] = fields;
            writeFileSync(file, `${JSON.stringify(stored, null, 1)}\n`);
            return;
        }
        const share = difference(fields, stored[name]);
        assert.ok(share <= most_share, `${(100 * share).toFixed(1)} % of the fields differ`);
    });

test("a stove that is not drawn, and another page, are told from the stored picture", { ...options, skip: options.skip || write }, async (t) => {
    const page = await opened(t, "", "light");
    assert.ok(difference(stored.calculator, stored.design) > most_share);
    assert.ok(difference(stored["design, dark"], stored.design) > 0.5);
    await page.locator(".stage canvas").evaluate((c) => (c.style.visibility = "hidden"));
    assert.ok(difference(await fields_of(page), stored.design) > most_share);
});

// picture_time.mjs: from a slider's input to the new picture, stage by stage, in a real browser; then while it is dragged.
//   STOVEWRIGHT=program node test/picture_time.mjs [STEPS]   prints medians and slow tenths; figures are one machine's, of one moment.
// "drawn": the picture is read back, so the drawing is done; "shown": the frame after it begins. Reading back holds the page up, and
// figures with it; so every other input goes without, and those give the figures. "drag": inputs come every 16 ms.
import { loadavg } from "node:os";
import { computed, open_bench, shut } from "./bench.mjs";

const steps = Number(process.argv[2] ?? 30);
const { page, close } = await open_bench();
await computed(page);
await page.waitForTimeout(1000);

await page.evaluate(() => {
    const slider = document.querySelector("input[type=range]"), stage = document.querySelector(".stage"), mass = document.querySelector(".figure b");
    const gl = stage.querySelector("canvas").getContext("webgl2"), [low, high] = [Number(slider.min), Number(slider.max)];
    const changed = (node, what, is) => new Promise((done) => {
        const look = new MutationObserver(() => is() && (look.disconnect(), done(performance.now())));
        look.observe(node, what);
    });
    const frame = () => new Promise((done) => requestAnimationFrame(() => done(performance.now())));
    const put = (share) => {
        slider.value = String(low + (high - low) * share);
        slider.dispatchEvent(new Event("input", { bubbles: true }));
    };
    const drawn = () => gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4)); // waits until all is drawn

    /** One input; ms of every stage since then. */
    globalThis.one_step = async (n, read_back) => {
        const loaded = stage.dataset.loaded, text = mass.textContent, begun = performance.now(), at = {};
        performance.clearResourceTimings();
        put(0.2 + (0.6 * ((n * 7) % 31)) / 31);
        at["input handled"] = performance.now() - begun;
        const figures = changed(mass, { childList: true, characterData: true, subtree: true }, () => mass.textContent !== text).then(async (is) => {
            at["figures new"] = is - begun;
            await frame(); // they go into this frame
            at["figures shown"] = (await frame()) - begun;
        });
        at["geometry taken"] = (await changed(stage, { attributes: true }, () => stage.dataset.loaded !== loaded)) - begun;
        at["frame begun"] = (await frame()) - begun;
        if (read_back) {
            drawn();
            at["picture drawn"] = performance.now() - begun;
        }
        at[read_back ? "picture shown" : "picture shown, not read back"] = (await frame()) - begun;
        await figures;
        if (read_back) {
            delete at["figures new"];
            delete at["figures shown"];
        }
        for (const [path, name] of [["/api/picture", "picture"], ["/api/compute", "figures"]]) {
            const e = performance.getEntriesByType("resource").find((r) => r.name.endsWith(path) && r.startTime >= begun - 1);
            if (!e) continue;
            at[`${name} asked`] = e.requestStart - begun;
            at[`${name} answered`] = e.responseStart - begun;
            at[`${name} received`] = e.responseEnd - begun;
            at[`${name} kB`] = e.encodedBodySize / 1000;
        }
        return at;
    };

    /** Inputs every 16 ms for so long; of every picture how old its input is when it is shown, and how many there were. */
    globalThis.drag = async (ms) => {
        const asked = [], ages = [], ask = globalThis.fetch;
        let newest = 0, k = 0, over = false;
        globalThis.fetch = (path, options) => {
            if (path === "/api/picture") asked.push(newest);
            return ask(path, options);
        };
        const begun = performance.now(), look = new MutationObserver((list) => list.some((m) => m.attributeName === "data-loaded") && asked.length && show());
        const show = async () => {
            const input = asked.shift();
            await frame(); // the picture goes into this frame
            ages.push((await frame()) - input);
        };
        look.observe(stage, { attributes: true });
        await new Promise((done) => {
            const move = () => {
                if (performance.now() - begun > ms) return done();
                newest = performance.now();
                put(0.5 + 0.3 * Math.sin(k++ / 25));
                setTimeout(move, 16);
            };
            move();
        });
        const count = ages.length;
        await new Promise((done) => setTimeout(done, 1500));
        look.disconnect();
        globalThis.fetch = ask;
        return { ages: ages.slice(0, count), rate: (1000 * count) / ms };
    };
});

const at = (list, share) => {
    const s = list.filter(Number.isFinite).sort((a, b) => a - b);
    return s.length ? s[Math.min(s.length - 1, Math.floor(share * s.length))].toFixed(0) : "";
};
const rows = [];
for (let i = 1; i <= 2 * steps; i++) {
    rows.push(await page.evaluate(([n, read_back]) => globalThis.one_step(n, read_back), [i, i % 2 === 0]));
    await page.waitForTimeout(700); // until lines are drawn and the hand would rest
}
console.log(`load ${loadavg()[0].toFixed(1)}\nwhat,fastest,median,slow tenth`);
for (const name of ["input handled", "picture asked", "picture answered", "picture received", "geometry taken", "frame begun", "picture drawn", "picture shown",
 "picture shown, not read back",
    "figures asked", "figures answered", "figures received", "figures new", "figures shown", "picture kB", "figures kB"])
    console.log([name, ...[0, 0.5, 0.9].map((s) => at(rows.map((r) => r[name]), s))].join());
const dragged = await page.evaluate(() => globalThis.drag(4000));
console.log(["drag: age of the picture shown", ...[0, 0.5, 0.9].map((s) => at(dragged.ages, s))].join());
console.log(`drag: pictures a second,,${dragged.rate.toFixed(1)},`);
await close();
await shut();

// picture_time.mjs: how long it takes from a slider's input to the new solid and the new figures, in a real browser.
//   STOVEWRIGHT=program node test/picture_time.mjs [STEPS]   prints medians and the slowest tenth; figures are one machine's.
import { computed, open_bench, shut } from "./bench.mjs";

const steps = Number(process.argv[2] ?? 30);
const { page, close } = await open_bench();
await computed(page);

/** One step of the slider: [ms until the solid is drawn, ms until the mass is new]. */
const step = (i) => page.evaluate(async (n) => {
    const slider = document.querySelector("input[type=range]"), stage = document.querySelector(".stage"), mass = document.querySelector(".figure b");
    const loaded = stage.dataset.loaded, text = mass.textContent, begun = performance.now();
    const until = (changed) => new Promise((done) => {
        const look = () => (changed() ? done(performance.now() - begun) : requestAnimationFrame(look));
        look();
    });
    const [low, high] = [Number(slider.min), Number(slider.max)];
    slider.value = String(low + (high - low) * (0.2 + (0.6 * ((n * 7) % 31)) / 31));
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    return Promise.all([until(() => stage.dataset.loaded !== loaded), until(() => mass.textContent !== text)]);
}, i);

const times = [[], []];
for (let i = 1; i <= steps; i++) {
    (await step(i)).forEach((ms, k) => times[k].push(ms));
    await page.waitForTimeout(50);
}
const at = (list, share) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(share * list.length))].toFixed(0);
console.log("what,median ms,90 % ms");
["solid", "figures"].forEach((name, k) => console.log(`${name},${at(times[k], 0.5)},${at(times[k], 0.9)}`));
await close();
await shut();

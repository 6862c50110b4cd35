// bench.mjs: a browser and a server for the tests. WORKBENCH=http://... tests against a server that runs; otherwise the small
// one of test/mock.mjs answers from test/fixture/.
import { chromium } from "playwright-core";
import { existsSync } from "node:fs";
import { serve } from "./mock.mjs";

const places = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];
export const browser_path = places.find((p) => p && existsSync(p));

export async function open_bench(hash = "", size = { width: 1400, height: 900 }) {
    const mock = process.env.WORKBENCH ? null : await serve();
    const address = process.env.WORKBENCH || mock.address;
    const browser = await chromium.launch({ executablePath: browser_path,
        args: ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"] });
    const page = await browser.newPage({ viewport: size });
    const complaints = [], strangers = [];
    page.on("pageerror", (e) => complaints.push(String(e)));
    page.on("console", (m) => m.type() === "error" && complaints.push(m.text()));
    page.on("request", (r) => !r.url().startsWith(address) && !/^(blob|data):/.test(r.url()) && strangers.push(r.url()));
    await page.goto(`${address}/${hash}`);
    return { page, mock, complaints, strangers, address, async close() {
        await browser.close();
        await mock?.close();
    } };
}

/** Waits until every study has been computed. */
export async function computed(page) {
    await page.getByText(/all studies computed/).waitFor({ timeout: 60000 });
}

// bench.mjs: a browser and a server for the tests. STOVEWRIGHT=program starts that program on a copy of demo/, one for each file
// of tests; WORKBENCH=http://... tests against a server that runs; otherwise the small one of test/mock.mjs answers from test/fixture/.
import { chromium } from "playwright-core";
import { spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import { serve as mock_serve } from "./mock.mjs";

const here = new URL(".", import.meta.url).pathname;
const places = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];
export const browser_path = places.find((p) => p && existsSync(p));
export const real = Boolean(process.env.STOVEWRIGHT || process.env.WORKBENCH);

// ---- the server ------------------------------------------------------------------------------------------------------

/** A copy of the demo and the page. */
export function make_folder() {
    const folder = mkdtempSync(join(tmpdir(), "sw-page-"));
    cpSync(join(here, "../../demo"), folder, { recursive: true });
    cpSync(join(here, "../dist"), join(folder, "page"), { recursive: true }); // may be built anew meanwhile
    return folder;
}

/** listens: resolves with { address, folder } once it does. stop keeps a folder that was given. */
export function start_program(program, given = null, port = 0) {
    const folder = given ?? make_folder();
    const child = spawn(program, ["serve", folder, "--port", String(port), "--web", join(folder, "page")],
        { stdio: ["ignore", "pipe", "inherit"], env: { ...process.env, TMPDIR: folder } });
    const ended = new Promise((done) => child.on("exit", (code) => done(code)));
    const listens = new Promise((done, fault) => {
        let said = "";
        child.on("error", fault);
        ended.then((code) => fault(new Error(`${program} serve ended with ${code}: ${said}`)));
        child.stdout.on("data", (part) => {
            said += part;
            const found = /(http:\/\/127\.0\.0\.1:\d+)\//.exec(said);
            if (found) done({ address: found[1], folder });
        });
    });
    async function stop() {
        child.kill("SIGINT");
        const code = await ended;
        if (!given) rmSync(folder, { recursive: true, force: true });
        if (code !== 0) throw new Error(`the server ended with ${code}`);
    }
    return { listens, stop };
}

let program = null, browser = null;

async function place() {
    if (process.env.WORKBENCH) return { address: process.env.WORKBENCH, folder: null, mock: null };
    if (process.env.STOVEWRIGHT) {
        program ??= start_program(process.env.STOVEWRIGHT);
        return { ...(await program.listens), mock: null };
    }
    const mock = await mock_serve();
    return { address: mock.address, folder: null, mock };
}

// ---- the browser ----------------------------------------------------------------------------------------------------

function launch() {
    if (!browser_path) throw new Error("no chromium: install it with scripts/install.sh test, or name it in CHROMIUM");
    return chromium.launch({ executablePath: browser_path,
        args: ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"] });
}

/** A page of its own in the file's one browser. folder: of the project, where the program serves; options: of playwright's context. */
export async function open_bench(hash = "", size = { width: 1400, height: 900 }, options = {}, at = null) {
    const { address, folder, mock } = at ?? (await place());
    browser ??= launch();
    const context = await (await browser).newContext({ viewport: size, ...options });
    const page = await context.newPage();
    const complaints = [], strangers = [];
    page.on("pageerror", (e) => complaints.push(String(e)));
    page.on("console", (m) => m.type() === "error" && complaints.push(m.text()));
    page.on("request", (r) => !r.url().startsWith(address) && !/^(blob|data):/.test(r.url()) && strangers.push(r.url()));
    await page.goto(`${address}/${hash}`);
    return { page, context, mock, complaints, strangers, address, folder, async close() {
        await context.close();
        await mock?.close();
    } };
}

/** Closes browser and server; done by itself after a file's tests. */
export async function shut() {
    await (await browser)?.close();
    await program?.stop();
    browser = program = null;
}
after(shut);

/** Waits until every study has been computed. */
export async function computed(page) {
    await page.getByText(/all studies computed/).waitFor({ timeout: 120000 });
}

const rules = () => readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What the accessibility rules find on the page as it is: a list of texts, [] = nothing. */
export async function accessibility_faults(page) {
    if (!(await page.evaluate(() => Boolean(globalThis.axe)))) await page.evaluate(rules());
    const found = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
    return found.violations.map((v) => `${v.id} (${v.impact}): ${v.nodes.slice(0, 3).map((n) => `${n.target} ${n.any[0]?.message ?? ""}`).join(" | ")}`);
}

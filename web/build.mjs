// build.mjs: bundles the page into dist/: one script, one sheet of style, one page. Nothing is fetched.
import { build } from "esbuild";
import { copyFile, mkdir, rm, stat } from "node:fs/promises";

const here = new URL(".", import.meta.url).pathname;
const most_bytes = 1.5e6;

await rm(here + "dist", { recursive: true, force: true });
await mkdir(here + "dist", { recursive: true });
await build({
    entryPoints: [here + "src/main.js", here + "src/style.css"],
    outdir: here + "dist",
    bundle: true,
    minify: true,
    format: "esm",
    target: "es2022",
    charset: "utf8",
    legalComments: "linked",
    logLevel: "warning",
});
await copyFile(here + "index.html", here + "dist/index.html");
await copyFile(here + "icon.svg", here + "dist/icon.svg");

let whole = 0;
for (const name of ["main.js", "style.css", "index.html", "icon.svg"]) whole += (await stat(here + "dist/" + name)).size;
if (whole > most_bytes) throw new Error(`the page is ${whole} bytes, more than ${most_bytes}`);

// build.mjs: bundles the page into dist/: one script, one sheet of style, one page. Nothing is fetched.
import { build } from "esbuild";
import { copyFile, mkdir, rename, rm, stat } from "node:fs/promises";

const here = new URL(".", import.meta.url).pathname;
const most_bytes = 1.5e6;

const dist = here + "dist.new/"; // put in place when it is whole: a server may be sending the old one
await rm(dist, { recursive: true, force: true });
await mkdir(dist, { recursive: true });
await build({
    entryPoints: [here + "src/main.js", here + "src/service.js", here + "src/style.css"],
    outdir: dist,
    bundle: true,
    minify: true,
    format: "esm",
    target: "es2022",
    charset: "utf8",
    legalComments: "linked",
    logLevel: "warning",
});
await copyFile(here + "index.html", dist + "index.html");
await copyFile(here + "icon.svg", dist + "icon.svg");

let whole = 0;
for (const name of ["main.js", "service.js", "style.css", "index.html", "icon.svg"]) whole += (await stat(dist + name)).size;
if (whole > most_bytes) throw new Error(`the page is ${whole} bytes, more than ${most_bytes}`);
await rm(here + "dist", { recursive: true, force: true });
await rename(dist, here + "dist");

// main.js: puts the page together: mantel, tasks, the task's page, the ledger of findings.
import * as api from "./api.js";
import * as state from "./state.js";
import * as compute from "./compute.js";
import * as jobs from "./jobs.js";
import { h, fill } from "./dom.js";
import { keep, kept } from "./kept.js";
import { ledger } from "./findings.js";
import { mantel } from "./mantel.js";
import { places_of } from "./places.js";
import * as design from "./pages/design.js";
import * as sheets from "./pages/sheets.js";
import * as forming from "./pages/forming.js";
import * as fire from "./pages/fire.js";
import * as house from "./pages/house.js";
import * as line from "./pages/line.js";
import * as variants from "./pages/variants.js";
import * as sweep from "./pages/sweep.js";
import * as papers from "./pages/papers.js";
import * as log from "./pages/log.js";
import * as reckon from "./pages/reckon.js";

const pages = [
    ["design", "Design", design], ["sheets", "Sheets and nests", sheets], ["forming", "Forming and welding", forming], ["fire", "Fire and heat", fire],
    ["house", "Flue and house", house], ["line", "Line and cost", line], ["variants", "Variants", variants], ["sweep", "Sweeps", sweep],
    ["papers", "Papers", papers], ["log", "Log", log], ["reckon", "Calculator", reckon],
].map(([name, text, module]) => ({ name, text, module }));

const at = (id) => document.getElementById(id);
const work = at("work"), tasks = at("tasks");
const app = { state, now: compute.now, project: null, wanted_piece: null, line_answer: null, show_piece };
let page = null, page_name = "", frame = 0;

try {
    const shade = localStorage.getItem("stovewright-shade");
    if (shade) document.documentElement.dataset.shade = shade;
} catch { /* the system's shade, then */ }

const shelf = mantel(at("mantel"), app);
const list = ledger(at("ledger"), show_place);

function show() {
    frame ||= requestAnimationFrame(show_now);
}

/** New figures go into the frame that comes next, not into the one after it. */
function show_now() {
    cancelAnimationFrame(frame);
    frame = 0;
    shelf.show(compute.now);
    list.show(compute.now);
    page?.show?.(compute.now);
}

function open_page() {
    const wanted = pages.find((p) => p.name === state.get().page) ?? pages[0];
    if (wanted.name === page_name) return;
    page?.close?.();
    page_name = wanted.name;
    fill(work);
    work.className = `page-${wanted.name}`;
    page = wanted.module.open(work, app);
    document.title = `${wanted.text} – Stovewright workbench`;
    for (const a of tasks.querySelectorAll("a")) {
        if (a.dataset.page === wanted.name) {
            a.setAttribute("aria-current", "page");
            tasks.scrollLeft = a.offsetLeft - (tasks.clientWidth - a.offsetWidth) / 2; // on a narrow screen the rail scrolls
        } else a.removeAttribute("aria-current");
    }
    show();
}

fill(tasks, pages.map((p) => h("a", { href: `./#${p.name}`, "data-page": p.name, onclick: (e) => {
    if (e.ctrlKey || e.metaKey || e.shiftKey) return;
    e.preventDefault();
    state.look({ page: p.name });
    scrollTo(0, 0);
} }, p.text)));

function show_piece(number) {
    app.wanted_piece = number;
    if (page_name === "design") page.choose(number);
    else state.look({ page: "design" });
    app.wanted_piece = null;
}

/** The piece a finding is about, by number or name. */
function show_place(f) {
    const hit = places_of(f, compute.now.answer)[0];
    if (hit) show_piece(hit);
    else state.look({ page: ["flue", "site"].includes(f.study) ? "house" : "design" });
    work.scrollIntoView();
}

const lost = h("p", { class: "lost notice", role: "alert", hidden: true }, h("b", {}, "✕ No connection to the server. "),
    "What is entered in the log is kept on this device and sent when the server answers again; everything else is as it last came.");
tasks.before(lost);
api.listen((is_there) => {
    lost.hidden = is_there;
    if (is_there && compute.now.errors) compute.follow(page?.follow?.());
    show();
});

let stove = null;
state.listen((what) => {
    if (what !== "look") open_page();
    if (what === "design" || what === "all") {
        const s = state.get(), files = [s.stove, s.works, s.house].join("|");
        if (files !== stove) {
            stove = files;
            compute.forget_first();
            shelf.draw_files();
        }
        compute.follow(page?.follow?.());
    }
    show();
});
compute.listen(show_now);

addEventListener("keydown", (e) => {
    const key = e.key.toLowerCase(), typing = e.target.matches?.("input[type=text],input[type=search],input[type=number],textarea");
    if (!(e.ctrlKey || e.metaKey) || typing) return;
    if (key === "z") (e.shiftKey ? state.redo : state.undo)();
    else if (key === "y") state.redo();
    else return;
    e.preventDefault();
});
at("skip").addEventListener("click", (e) => {
    e.preventDefault();
    work.focus();
});

/** Files that change on the disc are followed. */
async function watch(version) {
    for (let since = version, wait_ms = 500; ;) {
        try {
            const news = await api.watch(since);
            wait_ms = 500;
            if (news.version === since) continue;
            since = news.version;
            await take_project();
            shelf.draw_files();
            compute.follow(page?.follow?.());
        } catch {
            await new Promise((done) => setTimeout(done, wait_ms));
            wait_ms = Math.min(15000, wait_ms * 2);
        }
    }
}

async function take_project() {
    app.project = await api.project();
    keep("project", app.project);
}

/** Without a connection the page opens with the project as it last was, for the log; the server is looked for from then on. */
async function find_project() {
    try {
        await take_project();
        return app.project.version;
    } catch (error) {
        app.project = error.status === 0 ? kept("project")?.value ?? null : null;
        if (app.project) return 0;
        compute.now.errors = error.errors;
        show();
        return null;
    }
}

async function start() {
    const version = await find_project();
    if (version === null) return;
    const first = (kind) => app.project.files.find((f) => f.kind === kind)?.name ?? null;
    if (!state.open_address()) {
        Object.assign(state.get(), { stove: first("stove"), works: first("works"), house: first("house") });
        const read = state.read_address();
        if (read.page) state.get().page = read.page;
    }
    const s = state.get();
    stove = [s.stove, s.works, s.house].join("|");
    history.replaceState(null, "", state.address_of(s));
    shelf.draw_files();
    if (s.stove) compute.follow();
    open_page();
    jobs.refresh();
    watch(version);
}

if (isSecureContext) navigator.serviceWorker?.register("/service.js").catch(() => {}); // without it the page needs the server to open
start();

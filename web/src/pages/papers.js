// papers.js: the dossier: every paper made at once, each to be taken away.
import { h, fill, section } from "../dom.js";
import { job_panel, file_link } from "../jobs.js";
import { job_file } from "../api.js";
import { batch_field } from "./parts.js";

const opened = /\.(html|pdf|svg|png|txt)$/;

function folder_of(path) {
    return path.includes("/") ? path.slice(0, path.lastIndexOf("/")) : "first of all";
}

function draw(job) {
    const folders = new Map();
    for (const f of job.files ?? []) {
        const k = folder_of(f.path);
        if (!folders.has(k)) folders.set(k, []);
        folders.get(k).push(f);
    }
    return [...folders].map(([name, files], i) => h("details", { class: "folder", open: i === 0 }, h("summary", {}, `${name} (${files.length})`),
        h("ul", { class: "files" }, files.map((f) => h("li", {}, file_link(job, f), " ", opened.test(f.path) ? h("a", { href: job_file(job.job, f.path), target: "_blank", rel: "noopener" }, "look") : null, f.what ? h("span", { class: "hint" }, ` ${f.what}`) : null)))));
}

export function open(root, app) {
    const seconds = h("input", { type: "number", min: 1, max: 3000, value: 10 }), files = h("div", {});
    const job = job_panel("dossier", "Make all papers", {
        extra: () => ({ seconds: Number(seconds.value) || 10 }),
        get_answer: () => app.now.answer,
        show: (_, whole) => fill(files, draw(whole)),
        before: [batch_field(), h("label", { class: "choice" }, h("span", {}, "search nests for, seconds"), seconds)],
    });
    root.append(section("Papers", h("p", {}, "Drawings, bend and welding cards, nest maps, cut files, templates, the page of findings and the dossier as one document."), job.host, files,
        h("p", { class: "hint" }, "Results support and never replace type testing by an accredited body, local building codes and licensed practice.")));
    return { show() {}, close: job.close };
}

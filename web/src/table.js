// table.js: a table that can be sorted by its heads, scrolls sideways on a small screen and can be taken away as CSV.
import { h, fill } from "./dom.js";
import { number, plain } from "./format.js";

function text_of(column, row) {
    const value = column.get(row);
    if (column.show) return column.show(value, row);
    if (value === true) return "yes";
    if (value === false) return "no";
    if (typeof value === "number") return number(value, column.digits ?? 4);
    return value === null || value === undefined ? "–" : typeof value === "string" ? plain(value) : value;
}

function compare(a, b) {
    if (typeof a === "number" && typeof b === "number") return a - b;
    if (a === null || a === undefined) return 1;
    if (b === null || b === undefined) return -1;
    return String(a).localeCompare(String(b), "en", { numeric: true });
}

function as_csv(columns, rows) {
    const cell = (v) => (v === null || v === undefined ? "" : /[",\n]/.test(String(v)) ? `"${String(v).replaceAll('"', '""')}"` : v);
    const head = columns.map((c) => cell(c.unit ? `${c.head} (${c.unit})` : c.head)).join(",");
    return [head, ...rows.map((r) => columns.map((c) => cell(c.get(r))).join(","))].join("\n") + "\n";
}

export function save(name, text, type = "text/csv") {
    const url = URL.createObjectURL(text instanceof Blob ? text : new Blob([text], { type }));
    h("a", { href: url, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(url), 5000);
}

/** columns: {head, get(row), unit?, show?(value,row), digits?, left?}. */
export function table(caption, columns, rows, { most = 400, pick = null, empty = "Nothing here." } = {}) {
    if (!rows || rows.length === 0) return h("p", { class: "hint" }, `${caption}: ${empty}`);
    let order = rows.slice(), by = -1, down = false;
    const body = h("tbody", {});
    const heads = columns.map((c, i) => h("th", { scope: "col", "aria-sort": "none",
        class: i > 0 && !c.left && rows.some((r) => typeof c.get(r) === "number") ? "n" : null },
        h("button", { type: "button", class: "head", onclick: () => sort(i) }, c.head, c.unit ? h("small", {}, c.unit) : null)));
    function draw() {
        fill(body, order.slice(0, most).map((r) => h("tr", {}, columns.map((c, i) => {
            const value = c.get(r), plain = text_of(c, r);
            const inside = i === 0 && pick ? h("button", { type: "button", class: "link", onclick: () => pick(r) }, plain) : plain;
            return h(i === 0 ? "th" : "td", { scope: i === 0 ? "row" : null,
                class: typeof value === "number" && !c.left ? "n" : null }, inside);
        }))));
    }
    function sort(i) {
        down = by === i ? !down : false;
        by = i;
        order = rows.slice().sort((a, b) => compare(columns[i].get(a), columns[i].get(b)) * (down ? -1 : 1));
        heads.forEach((th, k) => th.setAttribute("aria-sort", k !== i ? "none" : down ? "descending" : "ascending"));
        draw();
    }
    draw();
    const file = `${caption.toLowerCase().replace(/[^a-z0-9]+/g, "-")}.csv`;
    return h("figure", { class: "sheet" },
        h("figcaption", {}, h("span", {}, caption), h("button", { type: "button", class: "quiet", "aria-label": `${caption}: save as CSV`,
            onclick: () => save(file, as_csv(columns, rows)) }, "CSV")),
        h("div", { class: "scroll", tabIndex: 0, role: "region", "aria-label": caption },
            h("table", {}, h("thead", {}, h("tr", {}, heads)), body)));
}

/** A short list of name and value. */
export function facts(rows) {
    return h("dl", { class: "facts" }, rows.filter(Boolean).map(([k, v]) => h("div", {}, h("dt", {}, k), h("dd", {}, v))));
}

// house_text.js: the stretches of a chimney in the text of a house: pipe {...}, flue {...}, liner {...}. Changes touch only what they
// change, so comments and sums stay as they were written.

const kinds = ["pipe", "flue", "liner"];

/** Index after a comment, a string or one sign that begins at i. */
function skip(text, i) {
    const rest = text.slice(i, i + 2), long = /^(?:--)?\[(=*)\[/.exec(text.slice(i, i + 40));
    if (long) {
        const end = text.indexOf(`]${long[1]}]`, i);
        return end < 0 ? text.length : end + long[1].length + 2;
    }
    if (rest === "--") {
        const end = text.indexOf("\n", i);
        return end < 0 ? text.length : end;
    }
    if (rest[0] === '"' || rest[0] === "'") {
        for (let k = i + 1; k < text.length; k++) {
            if (text[k] === "\\") k += 1;
            else if (text[k] === rest[0] || text[k] === "\n") return k + 1;
        }
        return text.length;
    }
    return i + 1;
}

/** Fields of the table whose brace opens at `open`; end: after its closing brace, 0 = none. */
function read_table(text, open) {
    const fields = [];
    let depth = 0, begun = open + 1;
    for (let i = open; i < text.length;) {
        const c = text[i];
        if (c === "{" || c === "(") depth += 1;
        if (c === "}" || c === ")") depth -= 1;
        const ends = depth === 0 && c === "}", parts = depth === 1 && (c === "," || c === ";");
        if (ends || parts) {
            const raw = text.slice(begun, i), found = /^((?:\s|--[^\n]*\n)*)(\w+)\s*=\s*/.exec(raw);
            if (found) fields.push({ name: found[2], from: begun + found[0].length, to: begun + raw.trimEnd().length, begun });
            begun = i + 1;
        }
        if (ends) return { fields, end: i + 1 };
        i = skip(text, i);
    }
    return { fields, end: 0 };
}

let last = { text: null, blocks: [] }; // a page asks for one text many times

/** [{kind, from, to, fields}] in the order of the text; not to be changed. */
export function parse(text) {
    if (text !== last.text) last = { text, blocks: read(text) };
    return last.blocks;
}

function read(text) {
    const blocks = [];
    let depth = 0;
    for (let i = 0; i < text.length;) {
        const word = /^[A-Za-z_]\w*/.exec(text.slice(i, i + 60))?.[0];
        if (word) {
            const brace = /^\s*\{/.exec(text.slice(i + word.length));
            if (depth === 0 && kinds.includes(word) && brace) {
                const { fields, end } = read_table(text, i + word.length + brace[0].length - 1);
                if (end === 0) return blocks;
                blocks.push({ kind: word, from: i, to: end, fields });
                i = end;
            } else i += word.length;
            continue;
        }
        if ("{(".includes(text[i])) depth += 1;
        if ("})".includes(text[i])) depth -= 1;
        i = skip(text, i);
    }
    return blocks;
}

const value_of = (text, f) => text.slice(f.from, f.to);

/** What a field says in figures or words: a number in `unit`, a text, true or false; null when it is a sum or not there. */
export function literal(text, block, name, unit = null) {
    const f = block.fields.find((x) => x.name === name);
    if (!f) return null;
    const raw = value_of(text, f), quoted = /^"([^"\\\n]*)"$|^'([^'\\\n]*)'$/.exec(raw);
    if (quoted) return quoted[1] ?? quoted[2];
    if (raw === "true" || raw === "false") return raw === "true";
    const size = /^(-?[\d.]+(?:e-?\d+)?)\s*\*\s*(mm|cm|m)$/.exec(raw), in_m = { mm: 1e-3, cm: 1e-2, m: 1 };
    if (!size || !unit) return null;
    return Number(((Number(size[1]) * in_m[size[2]]) / in_m[unit]).toPrecision(12));
}

export const has = (block, name) => block.fields.some((f) => f.name === name);

/** The text with a field set; raw as it shall stand: 150*mm, "heated". */
export function set_field(text, i, name, raw) {
    const block = parse(text)[i], f = block.fields.find((x) => x.name === name);
    if (f) return text.slice(0, f.from) + raw + text.slice(f.to);
    const open = text.indexOf("{", block.from) + 1; // in front: behind the last field a comment may stand
    return `${text.slice(0, open)} ${name} = ${raw},${text.slice(open)}`;
}

/** Without the i-th stretch and the line it leaves empty. */
export function remove(text, i) {
    const { from, to } = parse(text)[i];
    const head = text.slice(0, from).replace(/[ \t]*$/, ""), tail = text.slice(to).replace(/^[ \t]*(--[^\n]*)?\n/, "");
    return head + tail;
}

/** The i-th and the next stretch change places; what stands between stays. */
export function swap(text, i) {
    const [a, b] = [parse(text)[i], parse(text)[i + 1]];
    return text.slice(0, a.from) + text.slice(b.from, b.to) + text.slice(a.to, b.from) + text.slice(a.from, a.to) + text.slice(b.to);
}

/** A copy of the i-th stretch behind it, under another name. */
export function copy(text, i, name) {
    const { from, to } = parse(text)[i];
    const longer = `${text.slice(0, to)}\n${text.slice(from, to)}${text.slice(to)}`;
    return set_field(longer, i + 1, "name", quoted(name));
}

export function set_kind(text, i, kind) {
    const { from, kind: was } = parse(text)[i];
    return text.slice(0, from) + kind + text.slice(from + was.length);
}

export const quoted = (value) => `"${String(value).replace(/["\\\n]/g, "'")}"`;

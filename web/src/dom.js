// dom.js: making and filling elements. Text is always set as text, never as markup.

export function h(tag, attributes = {}, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
        if (value === undefined || value === null || value === false) continue;
        if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
        else if (name === "class") element.className = value;
        else if (name in element && name !== "list" && name !== "form" && name !== "role") element[name] = value;
        else element.setAttribute(name, value === true ? "" : value);
    }
    element.append(...children.flat(3).filter((c) => c !== null && c !== undefined && c !== false));
    return element;
}

export function fill(element, ...children) {
    element.replaceChildren(...children.flat(3).filter((c) => c !== null && c !== undefined && c !== false));
    return element;
}

const svg_space = "http://www.w3.org/2000/svg";

export function s(tag, attributes = {}, ...children) {
    const element = document.createElementNS(svg_space, tag);
    for (const [name, value] of Object.entries(attributes))
        if (value !== undefined && value !== null) element.setAttribute(name, value);
    element.append(...children);
    return element;
}

let last_id = 0;
export function fresh_id(stem) {
    last_id += 1;
    return `${stem}-${last_id}`;
}

/** A labelled choice among rows {value, text}. */
export function choice(label, rows, value, onchange, attributes = {}) {
    const select = h("select", { ...attributes, onchange: () => onchange(select.value) },
        rows.map((r) => h("option", { value: r.value, selected: r.value === value }, r.text)));
    return labelled(label, select);
}

/** A field with its name before it, seen and read aloud. */
export function labelled(label, field) {
    return h("label", { class: "choice" }, h("span", {}, label), field);
}

export function section(title, ...children) {
    const id = fresh_id("part");
    return h("section", { class: "part", "aria-labelledby": id }, h("h2", { id }, title), ...children);
}

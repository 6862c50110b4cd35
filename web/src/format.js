// format.js: numbers and names as people read them.

/** At most `digits` figures that say something; "–" for what does not exist. */
export function number(value, digits = 4) {
    if (value === null || value === undefined || !Number.isFinite(value)) return "–";
    if (value === 0 || Math.abs(value) < 1e-12) return "0";
    const size = Math.floor(Math.log10(Math.abs(value)));
    if (size >= 7 || size < -4) return value.toExponential(digits - 1);
    const places = Math.max(0, Math.min(6, digits - 1 - size));
    return Number(value.toFixed(places)).toLocaleString("en", { maximumFractionDigits: places, useGrouping: size >= 4 });
}

export function fixed(value, places) {
    return value === null || value === undefined || !Number.isFinite(value) ? "–" : value.toFixed(places);
}

const units = { degC: "°C", deg: "°", "": "" };

export function unit(name) {
    if (name === undefined || name === null) return "";
    return units[name] ?? plain(name);
}

export function with_unit(value, name, digits = 4) {
    const text = number(value, digits);
    const mark = unit(name);
    return mark === "" || text === "–" ? text : `${text} ${mark}`;
}

/** The program's texts as the papers write them. */
export function plain(text) {
    return String(text ?? "").replace(/\bdegC\b/g, "°C").replace(/(\d) deg\b/g, "$1°").replace(/\b(m|mm)2\b/g, "$1²").replace(/\b(m|mm)3\b/g, "$1³")
        .replace(/\+-/g, "±").replace(/\bCO2\b/g, "CO₂").replace(/\bO2\b/g, "O₂");
}

export function words(name) {
    return String(name ?? "").replaceAll("_", " ");
}

export function time(seconds) {
    if (seconds === null || seconds === undefined || !Number.isFinite(seconds)) return "–";
    if (seconds < 90) return `${number(seconds, 3)} s`;
    if (seconds < 5400) return `${number(seconds / 60, 3)} min`;
    return `${number(seconds / 3600, 3)} h`;
}

export function percent(share, digits = 3) {
    return share === null || share === undefined ? "–" : `${number(share * 100, digits)} %`;
}

/** The last part of a path. */
export function base_name(path) {
    return String(path ?? "").split("/").pop();
}

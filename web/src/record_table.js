// record_table.js: records of one kind as a table, whatever the kind.
import { field_text, kind_text, plain_time } from "./record_form.js";
import { table } from "./table.js";

/** The last records of one kind, whatever it is. */
export function record_table(kind, records, pick = null) {
    const fields = kind.fields.filter((f) => !["document", "hash"].includes(f.type) && records.some((r) => r.values[f.name] !== null));
    return table(kind_text(kind.plural), [...fields.map((f) => ({ head: field_text(f.name), unit: f.unit && f.unit !== "as unit" ? f.unit : null, get: (r) => r.values[f.name], left: f.type !== "number" && f.type !== "whole" })),
        ...(records.some((r) => r.verdict) ? [{ head: "judged", get: (r) => r.verdict, show: (v) => (v === "outside" ? "✕ outside" : v === "holds" ? "✓ holds" : "–") }] : []),
        { head: "when", get: (r) => plain_time(r.at) }, { head: "by", get: (r) => r.by }, { head: "no.", get: (r) => r.id }], records, { pick, empty: "None recorded yet." });
}

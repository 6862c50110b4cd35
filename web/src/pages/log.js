// log.js: stoves that were made. The server says what it can; who changed what stands below.
import * as api from "../api.js";
import { h, fill, section, labelled } from "../dom.js";
import { table } from "../table.js";

export function open(root) {
    const told = h("div", { role: "status" }), changes = h("div", {});
    const find = h("input", { type: "search" });
    const ask = async () => {
        try {
            const answer = await api.serials(find.value), list = Array.isArray(answer) ? answer : (answer.serials ?? []);
            const names = [...new Set(list.flatMap((r) => Object.keys(r)))].filter((k) => typeof list[0][k] !== "object");
            fill(told, table("Serial numbers", names.map((k) => ({ head: k.replaceAll("_", " "), get: (r) => r[k] })), list));
        } catch (error) {
            fill(told, h("p", { class: "notice" }, error.errors?.map((e) => `${e.what}${e.remedy ? `; ${e.remedy}` : ""}`).join("; ") ?? error.message, "."));
        }
    };
    root.append(section("Stoves made", h("form", { class: "jobpanel", role: "search", onsubmit: (e) => {
        e.preventDefault();
        ask();
    } }, labelled("Find a serial number, or any text", find), h("button", { type: "submit", class: "go" }, "Find")), told), section("Who changed what", changes));
    ask();
    api.activity().then((list) => fill(changes, table("Newest first", [{ head: "when", get: (a) => a.when }, { head: "who", get: (a) => a.who }, { head: "what", get: (a) => a.what },
        { head: "about", get: (a) => (typeof a.about === "string" ? a.about : a.about ? JSON.stringify(a.about) : null) }], list)), (error) => fill(changes, h("p", { class: "warn" }, error.message)));
    return { show() {} };
}

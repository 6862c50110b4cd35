// model.js: asks for the solid, one question at a time, the newest design next.
import * as api from "./api.js";

/** take(bytes, fresh) gets each answer. */
export function model_feed(get_design, take, fault) {
    let busy = false, again = false, closed = false, files = "";
    async function ask() {
        if (busy) {
            again = true;
            return;
        }
        busy = true;
        const design = get_design(), key = design.stove;
        try {
            const bytes = await api.model(design, "material");
            if (!closed) await take(bytes, key !== files);
            files = key;
            fault(null);
        } catch (error) {
            if (!closed) fault(error);
        }
        busy = false;
        if (again && !closed) {
            again = false;
            ask();
        }
    }
    return { ask, close: () => (closed = true) };
}

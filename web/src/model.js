// model.js: asks for the solid, one question at a time, the newest design next: rough while the design moves, fine once it rests.
import * as api from "./api.js";

const rough_mm = 0.25; // how far a chord may be from its arc while the design moves: less than a point of the picture
const rest_ms = 300;

/** held() names the geometry that is there; take(bytes, fresh, rough) gets each answer and resolves when it is drawn. ask() resolves when the next
 *  one is drawn, or was refused. */
export function model_feed(get_design, { held, take, fault, between = () => null }) {
    let busy = false, again = false, closed = false, files = "", timer = 0, waiting = [];
    const let_go = () => {
        for (const go_on of waiting) go_on();
        waiting = [];
    };
    /** Shows an answer; one that does not fit what is held is asked for once more, whole. */
    async function show(design, bytes, chord_mm) {
        const fresh = design.stove !== files;
        try {
            await take(bytes, fresh, chord_mm !== undefined);
        } catch {
            const whole = await api.picture(design, [], chord_mm);
            if (closed) return;
            await take(whole, fresh, chord_mm !== undefined);
        }
        files = design.stove;
        fault(null);
    }
    async function ask(rough) {
        if (busy) {
            again = true;
            return;
        }
        busy = true;
        clearTimeout(timer);
        const design = get_design(), chord_mm = rough && design.stove === files ? rough_mm : undefined;
        try {
            const bytes = await api.picture(design, held(), chord_mm);
            if (!closed) await show(design, bytes, chord_mm);
        } catch (error) {
            if (!closed) fault(error);
        }
        let_go();
        if (again) {
            await new Promise((done) => setTimeout(done)); // who waited for the picture goes first
            await between();
        }
        busy = false;
        if (closed) return;
        if (again) {
            again = false;
            ask(true);
        } else if (chord_mm !== undefined) timer = setTimeout(() => ask(false), rest_ms);
    }
    return {
        ask() {
            const answered = new Promise((done) => waiting.push(done));
            ask(true);
            return answered;
        },
        close() {
            closed = true;
            clearTimeout(timer);
            let_go();
        },
    };
}

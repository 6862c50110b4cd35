// kept.js: what the log's pages cannot do without when there is no connection, as it last came: the project, the kinds of records,
// names, bands of a first fire, plans of inspection. In this browser's storage alone; what is used least goes first.
const stem = "stovewright-kept.", most = 40;

function drop_oldest() {
    const all = Object.keys(localStorage).filter((k) => k.startsWith(stem)).map((k) => ({ k, at: kept(k.slice(stem.length))?.at ?? "" }));
    for (const { k } of all.sort((a, b) => (a.at < b.at ? -1 : 1)).slice(0, Math.max(0, all.length - most))) localStorage.removeItem(k);
}

export function keep(name, value) {
    try {
        localStorage.setItem(stem + name, JSON.stringify({ at: new Date().toISOString(), value }));
        drop_oldest();
    } catch { /* no room or no storage: then it is not there without a connection */ }
}

/** {at, value}, or null. */
export function kept(name) {
    try {
        return JSON.parse(localStorage.getItem(stem + name));
    } catch {
        return null;
    }
}

/** The server's answer, which is kept; when the server cannot be reached the one kept before. */
export async function or_kept(name, ask) {
    try {
        const value = await ask();
        keep(name, value);
        return value;
    } catch (error) {
        const old = error.status === 0 ? kept(name) : null;
        if (!old) throw error;
        return old.value;
    }
}

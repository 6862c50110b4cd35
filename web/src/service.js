// service.js: lets the page itself open without a connection. Only the page's own files, and the network always goes first: what is kept
// is sent when the server cannot be reached. Answers of the interface are never kept here.
const store = "stovewright-page", files = ["/", "/main.js", "/style.css", "/icon.svg"];

/** Not through the browser's own store: a page and a script of different builds would be kept together. */
async function fetch_and_keep(path) {
    const reply = await fetch(path, { cache: "no-store", credentials: "same-origin", redirect: "manual" });
    if (reply.ok) await (await caches.open(store)).put(path, reply.clone());
    return reply;
}

addEventListener("install", (e) => {
    // Where the browser lets us say so, calls do not pass through here at all: a picture that follows a hand must not wait for it.
    e.addRoutes?.({ condition: { urlPattern: { pathname: "/api/*" } }, source: "network" }).catch(() => {});
    e.waitUntil(Promise.all(files.map(fetch_and_keep)).then(() => skipWaiting()));
});
addEventListener("activate", (e) => e.waitUntil(clients.claim()));

addEventListener("fetch", (e) => {
    const { pathname, search, origin } = new URL(e.request.url);
    const path = pathname === "/index.html" ? "/" : pathname;
    if (e.request.method !== "GET" || origin !== location.origin || search !== "" || !files.includes(path)) return;
    e.respondWith(fetch_and_keep(path).catch(async () => (await (await caches.open(store)).match(path)) ?? Response.error()));
});

// mock.mjs: a small server with the workbench's interface, for tests of the page alone. Its stove is one box whose mass follows
// firebox_width; all else is the recorded answer of test/fixture/.
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";

const here = new URL(".", import.meta.url).pathname;
const types = { html: "text/html; charset=utf-8", js: "text/javascript; charset=utf-8", css: "text/css; charset=utf-8", svg: "image/svg+xml" };
const policy = "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; object-src 'none'; base-uri 'none'";

/** One named box a metre wide times `width`, in the shape of the program's own files. */
function box_glb(width) {
    const w = width / 2, points = [], faces = [];
    for (const x of [-w, w]) for (const y of [0, 0.9]) for (const z of [-0.2, 0.2]) points.push(x, y, z);
    for (const [a, b, c, d] of [[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]]) faces.push(a, b, c, a, c, d);
    const normals = points.map((_, i) => (i % 3 === 1 ? 1 : 0));
    const bin = Buffer.concat([Buffer.from(new Float32Array(points).buffer), Buffer.from(new Float32Array(normals).buffer), Buffer.from(new Uint32Array(faces).buffer)]);
    const view = (byteOffset, byteLength) => ({ buffer: 0, byteOffset, byteLength });
    const root = { asset: { version: "2.0" }, scene: 0, scenes: [{ nodes: [0] }],
        nodes: [{ name: "stove", children: [1] }, { name: "Inner furnace", extras: { group: "furnace", explode_m: [0, 0, 0] }, children: [2] },
            { name: "A-03 left side", mesh: 0, extras: { number: "A-03", name: "left side", group: "furnace", role: "side", copy: 1, kind: "sheet" } }],
        meshes: [{ primitives: [{ attributes: { POSITION: 0, NORMAL: 1 }, indices: 2 }] }], buffers: [{ byteLength: bin.length }],
        bufferViews: [view(0, 96), view(96, 96), view(192, 144)],
        accessors: [{ bufferView: 0, componentType: 5126, count: 8, type: "VEC3", min: [-w, 0, -0.2], max: [w, 0.9, 0.2] }, { bufferView: 1, componentType: 5126, count: 8, type: "VEC3" }, { bufferView: 2, componentType: 5125, count: 36, type: "SCALAR" }] };
    let text = JSON.stringify(root);
    text += " ".repeat((4 - (text.length % 4)) % 4);
    const head = Buffer.alloc(20), middle = Buffer.alloc(8);
    head.write("glTF", 0);
    head.writeUInt32LE(2, 4);
    head.writeUInt32LE(28 + text.length + bin.length, 8);
    head.writeUInt32LE(text.length, 12);
    head.write("JSON", 16);
    middle.writeUInt32LE(bin.length, 0);
    middle.write("BIN\0", 4);
    return Buffer.concat([head, Buffer.from(text), middle, bin]);
}

export async function serve() {
    const answer = JSON.parse(await readFile(here + "fixture/check.json", "utf8"));
    const formulas = JSON.parse(await readFile(here + "fixture/reckon.json", "utf8"));
    const variants = [];
    const width_of = (state) => parseFloat(state.set?.firebox_width ?? "360");
    const routes = {
        "GET /api/project": () => ({ version: 1, files: [["a.stove.lua", "stove", "Convection heater (a)"], ["demo.works.lua", "works", "Demonstration works"], ["demo.house.lua", "house", "cottage"]]
            .map(([name, kind, title]) => ({ name, kind, title, changed: 0, errors: [] })) }),
        "POST /api/compute": (state) => {
            const mine = structuredClone(answer);
            mine.took_ms = 12;
            mine.parameters[0].value = width_of(state);
            mine.masses.stove.mass_kg += (width_of(state) - 360) * 0.1;
            return mine;
        },
        "POST /api/picture": (state) => box_glb(width_of(state) / 1000),
        "POST /api/flat": () => "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 10'><path d='M1 1h8v8H1z' fill='none' stroke='black'/></svg>",
        "GET /api/jobs": () => [],
        "GET /api/variants": () => variants,
        "POST /api/variants": ({ name, ...state }) => (variants.push({ name, when: "", state }), {}),
        "GET /api/activity": () => [],
        "GET /api/reckon": () => formulas,
        "POST /api/reckon": () => ({ outputs: { k: 0.8, K: 0.4 } }),
    };
    const server = createServer(async (request, reply) => {
        const { pathname } = new URL(request.url, "http://x");
        const send = (status, type, body) => reply.writeHead(status, { "Content-Type": type, "Content-Security-Policy": policy }).end(body);
        if (pathname === "/api/watch") return; // until the page goes away
        if (!pathname.startsWith("/api/")) {
            const name = pathname === "/" ? "index.html" : pathname.slice(1);
            const file = /^[\w.-]+$/.test(name) ? await readFile(`${here}../dist/${name}`).catch(() => null) : null;
            send(file ? 200 : 404, types[name.split(".").pop()] ?? "text/plain", file ?? "");
            return;
        }
        let text = "";
        for await (const part of request) text += part;
        const route = routes[`${request.method} ${pathname}`];
        if (!route || (request.method === "POST" && request.headers["x-stovewright"] !== "1")) {
            send(501, "application/json", JSON.stringify({ error: { what: "not here", remedy: "ask the real server" } }));
            return;
        }
        const said = route(text ? JSON.parse(text) : {});
        if (Buffer.isBuffer(said)) send(200, "model/gltf-binary", said);
        else if (typeof said === "string") send(200, "image/svg+xml", said);
        else send(200, "application/json", JSON.stringify(said));
    });
    await new Promise((done) => server.listen(0, "127.0.0.1", done));
    return { address: `http://127.0.0.1:${server.address().port}`, answer, close() {
        server.closeAllConnections();
        return new Promise((done) => server.close(done));
    } };
}

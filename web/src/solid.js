// solid.js: reads the server's glTF files: placed pieces under subassemblies, and the geometry that came with them. What the page
// holds already is named by its mark and not sent again.

const arrays = { 5120: Int8Array, 5121: Uint8Array, 5122: Int16Array, 5123: Uint16Array, 5125: Uint32Array, 5126: Float32Array };
const sizes = { SCALAR: 1, VEC3: 3, VEC4: 4 };
let files = 0; // geometry without a mark is named by its file

function json_and_bytes(buffer) {
    const head = new DataView(buffer);
    if (buffer.byteLength < 20 || head.getUint32(0, true) !== 0x46546c67) throw new Error("no solid came from the server");
    const length = head.getUint32(12, true), root = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 20, length)));
    return { root, start: 28 + length };
}

/** One accessor as { array, size }: size numbers an item, of which the last may stand idle. */
function values(root, buffer, start, number) {
    const a = root.accessors[number], view = root.bufferViews[a.bufferView], kind = arrays[a.componentType];
    const stride = view.byteStride ? view.byteStride / kind.BYTES_PER_ELEMENT : sizes[a.type];
    const at = start + (view.byteOffset ?? 0) + (a.byteOffset ?? 0), count = stride * a.count;
    return { array: new kind(buffer, at, count), size: stride, normalized: Boolean(a.normalized) };
}

/** -> { groups: [{name, text, way}], pieces: [{number, name, group, role, copy, shape, at, turn, scale}], shapes: Map mark ->
 *  {position, normal, index, low, high} } */
export function read_solid(buffer) {
    const { root, start } = json_and_bytes(buffer), groups = [], pieces = [], shapes = new Map(), file = ++files;
    const shape_of = (mesh) => {
        const p = root.meshes[mesh].primitives[0], box = root.accessors[p.attributes.POSITION];
        const get = (n) => values(root, buffer, start, n);
        return { position: get(p.attributes.POSITION), normal: get(p.attributes.NORMAL), index: get(p.indices), low: box.min, high: box.max };
    };
    for (const node of root.nodes) {
        const about = node.extras ?? {};
        if (about.explode_m) groups.push({ name: about.group, text: node.name, way: about.explode_m });
        if (!about.number) continue;
        const shape = about.shape ?? `${file} ${node.mesh}`;
        if (node.mesh !== undefined && !shapes.has(shape)) shapes.set(shape, shape_of(node.mesh));
        pieces.push({ number: about.number, name: about.name, group: about.group, role: about.role, copy: about.copy ?? 1, shape,
            at: node.translation ?? [0, 0, 0], turn: node.rotation ?? [0, 0, 0, 1], scale: node.scale?.[0] ?? 1 });
    }
    return { groups, pieces, shapes };
}

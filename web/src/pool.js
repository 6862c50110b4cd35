// pool.js: the geometry of all pieces in one set of buffers, of which each piece draws its stretch. A change refills the buffers; making
// buffers for every piece anew would take most of the time from a slider to the picture.
import { Box3, BufferAttribute, BufferGeometry, Vector3, Sphere } from "three";

const spare = 1.5; // room for more than is there: the next design may have more corners

export class Pool {
    constructor() {
        this.attributes = {};
        this.geometries = [];
    }

    /** Room in attribute `name` for `length` numbers like those of `array`; true when it is a new one. */
    has_new(name, array, size, normalized, length) {
        const had = this.attributes[name];
        if (had && had.array.constructor === array.constructor && had.itemSize === size && had.array.length >= length) return false;
        this.attributes[name] = new BufferAttribute(new array.constructor(size * Math.ceil((spare * length) / size)), size, normalized);
        return true;
    }

    fill(name, parts) {
        const to = this.attributes[name];
        let at = 0;
        for (const part of parts) {
            to.array.set(part, at);
            at += part.length;
        }
        to.clearUpdateRanges();
        to.addUpdateRange(0, at);
        to.needsUpdate = true;
    }

    /** The geometry that draws part i. */
    geometry(i) {
        if (!this.geometries[i]) {
            const g = (this.geometries[i] = new BufferGeometry());
            for (const [name, a] of Object.entries(this.attributes)) if (name !== "index") g.setAttribute(name, a);
            if (this.attributes.index) g.setIndex(this.attributes.index);
            g.boundingBox = new Box3();
            g.boundingSphere = new Sphere();
        }
        return this.geometries[i];
    }

    /** shapes: distinct, as solid.js reads them -> Map shape -> { start, count } of its indices. */
    lay(shapes) {
        if (shapes.length === 0) return new Map();
        const [one] = shapes, sum = (get) => shapes.reduce((n, s) => n + get(s), 0), corners = [];
        const fresh = [this.has_new("position", one.position.array, one.position.size, one.position.normalized, sum((s) => s.position.array.length)),
            this.has_new("normal", one.normal.array, one.normal.size, one.normal.normalized, sum((s) => s.normal.array.length)),
            this.has_new("index", new Uint32Array(0), 1, false, sum((s) => s.index.array.length))];
        if (fresh.some(Boolean)) this.forget();
        this.fill("position", shapes.map((s) => s.position.array));
        this.fill("normal", shapes.map((s) => s.normal.array));
        const ranges = new Map();
        let start = 0, base = 0;
        for (const s of shapes) {
            const from = s.index.array, index = new Uint32Array(from.length);
            for (let i = 0; i < from.length; i++) index[i] = from[i] + base;
            corners.push(index);
            ranges.set(s, { start, count: from.length });
            start += from.length;
            base += s.position.array.length / s.position.size;
        }
        this.fill("index", corners);
        return ranges;
    }

    /** lines: Map key -> points, two a line -> Map key -> { start, count }. */
    lay_lines(lines) {
        const all = [...lines.values()];
        if (this.has_new("position", new Float32Array(0), 3, false, all.reduce((n, l) => n + l.length, 3))) this.forget();
        this.fill("position", all);
        const ranges = new Map();
        let start = 0;
        for (const [key, l] of lines) {
            ranges.set(key, { start, count: l.length / 3 });
            start += l.length / 3;
        }
        return ranges;
    }

    set(i, range, low, high) {
        const g = this.geometry(i);
        g.setDrawRange(range.start, range.count);
        g.boundingBox.set(new Vector3(...low), new Vector3(...high));
        g.boundingBox.getBoundingSphere(g.boundingSphere);
        return g;
    }

    /** The buffers go with the geometries that share them. */
    forget() {
        for (const g of this.geometries) g?.dispose();
        this.geometries = [];
    }
}

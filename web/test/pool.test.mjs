// pool.test.mjs: the solid as it is read and laid into one set of buffers.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Pool } from "../src/pool.js";
import { read_solid } from "../src/solid.js";

/** A shape as solid.js reads one: `n` corners at x = first, first + 1, ...; triangles over neighbours. */
function shape(first, n) {
    const position = new Int16Array(4 * n), index = [];
    for (let i = 0; i < n; i++) position[4 * i] = first + i;
    for (let i = 0; i + 2 < n; i++) index.push(i, i + 1, i + 2);
    return { position: { array: position, size: 4, normalized: false }, normal: { array: new Int8Array(4 * n), size: 4, normalized: true },
        index: { array: new Uint16Array(index), size: 1 }, low: [first, 0, 0], high: [first + n - 1, 0, 0] };
}

/** The x of the corners a geometry draws. */
function drawn(geometry) {
    const { start, count } = geometry.drawRange, all = [];
    for (let i = start; i < start + count; i++) all.push(geometry.attributes.position.getX(geometry.index.getX(i)));
    return all;
}

const wanted = (s) => [...s.index.array].map((i) => s.position.array[4 * i]);

test("each piece draws its own corners and no others", () => {
    const pool = new Pool(), shapes = [shape(0, 3), shape(100, 7), shape(200, 4)], ranges = pool.lay(shapes);
    shapes.forEach((s, i) => assert.deepEqual(drawn(pool.set(i, ranges.get(s), s.low, s.high)), wanted(s)));
    assert.deepEqual(pool.geometry(1).boundingBox.max.toArray(), [106, 0, 0]);
});

test("a stove without pieces is laid too", () => assert.equal(new Pool().lay([]).size, 0));

test("a change refills the same buffers while there is room, and takes larger ones when there is none", () => {
    const pool = new Pool(), first = [shape(0, 10), shape(50, 10)];
    pool.lay(first);
    const buffer = pool.attributes.position, geometry = pool.geometry(0);
    const second = [shape(300, 12), shape(400, 9)], ranges = pool.lay(second);
    assert.equal(pool.attributes.position, buffer);
    assert.equal(pool.set(0, ranges.get(second[0]), [0, 0, 0], [1, 1, 1]), geometry);
    assert.deepEqual(drawn(geometry), wanted(second[0]));
    const third = [shape(0, 500)], wide = pool.lay(third);
    assert.notEqual(pool.attributes.position, buffer);
    assert.notEqual(pool.geometry(0), geometry);
    assert.deepEqual(drawn(pool.set(0, wide.get(third[0]), [0, 0, 0], [1, 1, 1])), wanted(third[0]));
});

test("lines keep to their pieces", () => {
    const pool = new Pool(), a = {}, b = {}, ranges = pool.lay_lines(new Map([[a, new Float32Array([1, 0, 0, 2, 0, 0])], [b, new Float32Array([3, 0, 0, 4, 0, 0, 5, 0, 0, 6, 0, 0])]]));
    assert.deepEqual(ranges.get(a), { start: 0, count: 2 });
    assert.deepEqual(ranges.get(b), { start: 2, count: 4 });
    assert.equal(pool.attributes.position.getX(ranges.get(b).start), 3);
});

test("what is no solid is refused", () => {
    assert.throws(() => read_solid(new TextEncoder().encode('{"error": {"what": "no"}}          ').buffer), /no solid/);
});

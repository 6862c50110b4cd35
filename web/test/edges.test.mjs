import assert from "node:assert/strict";
import { test } from "node:test";
import { BoxGeometry, BufferGeometry, CylinderGeometry, EdgesGeometry, Float32BufferAttribute } from "three";
import { edge_lines } from "../src/edges.js";

const of = (g, deg) => edge_lines(g.attributes.position.array, g.index?.array ?? null, deg);
const length = (p) => {
    let sum = 0;
    for (let i = 0; i < p.length; i += 6) sum += Math.hypot(p[i + 3] - p[i], p[i + 4] - p[i + 1], p[i + 5] - p[i + 2]);
    return sum;
};

test("a box has twelve edges and no diagonals", () => {
    const lines = of(new BoxGeometry(0.3, 0.4, 0.5), 25);
    assert.equal(lines.length / 6, 12);
    assert.ok(Math.abs(length(lines) - 4 * (0.3 + 0.4 + 0.5)) < 1e-6);
});

test("a rolled wall shows its rims, not its facets", () => {
    const lines = of(new CylinderGeometry(0.2, 0.2, 0.5, 48, 1, true), 25);
    assert.ok(Math.abs(length(lines) - 2 * 48 * 2 * 0.2 * Math.sin(Math.PI / 48)) < 1e-6);
});

test("the same edges as the library finds", () => {
    for (const g of [new BoxGeometry(0.1, 0.2, 0.3, 3, 2, 4), new CylinderGeometry(0.1, 0.2, 0.4, 12, 3), new CylinderGeometry(0.2, 0.2, 0.3, 6).toNonIndexed()])
        for (const deg of [1, 25, 50]) assert.ok(Math.abs(length(of(g, deg)) - length(new EdgesGeometry(g, deg).attributes.position.array)) < 1e-5);
});

test("a triangle by itself is drawn round, one without area not at all", () => {
    const g = new BufferGeometry();
    g.setAttribute("position", new Float32BufferAttribute([0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0], 3));
    assert.equal(of(g, 25).length / 6, 3);
});

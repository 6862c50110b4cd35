// edges.js: the lines of a solid's edges: where two of its triangles meet at an angle, or one ends.

const grid_per_m = 1e4, half = 1 << 15; // corners nearer than 0.1 mm are one; 16 bits for each of x, y, z: up to 3.2 m either way

/** Each corner's number: equal for corners at one place. */
function corner_numbers(positions) {
    const numbers = new Uint32Array(positions.length / 3), places = new Map();
    for (let i = 0; i < numbers.length; i++) {
        let key = 0;
        for (let k = 0; k < 3; k++)
            key = key * 2 * half + Math.min(Math.max(Math.round(positions[3 * i + k] * grid_per_m) + half, 0), 2 * half - 1);
        let n = places.get(key);
        if (n === undefined) places.set(key, (n = places.size));
        numbers[i] = n;
    }
    return numbers;
}

function write_normal(positions, a, b, c, into, at) {
    const ax = positions[3 * a], ay = positions[3 * a + 1], az = positions[3 * a + 2];
    const ux = positions[3 * b] - ax, uy = positions[3 * b + 1] - ay, uz = positions[3 * b + 2] - az;
    const vx = positions[3 * c] - ax, vy = positions[3 * c + 1] - ay, vz = positions[3 * c + 2] - az;
    const x = uy * vz - uz * vy, y = uz * vx - ux * vz, z = ux * vy - uy * vx, length = Math.hypot(x, y, z) || 1;
    into[at] = x / length;
    into[at + 1] = y / length;
    into[at + 2] = z / length;
}

/** positions: [3 x corners]; index: three corners a triangle, or null; -> Float32Array, two points a line. */
export function edge_lines(positions, index, least_deg) {
    const numbers = corner_numbers(positions), triangles = (index ? index.length : numbers.length) / 3;
    const normals = new Float32Array(3 * triangles), open = new Map(); // edge -> triangle and corners that wait for the other side
    const most = Math.cos((least_deg * Math.PI) / 180), count = numbers.length, lines = [];
    const at = (t, k) => (index ? index[3 * t + k] : 3 * t + k);
    const draw = (a, b) => {
        for (const i of [3 * a, 3 * b]) lines.push(positions[i], positions[i + 1], positions[i + 2]);
    };
    for (let t = 0; t < triangles; t++) {
        const corners = [at(t, 0), at(t, 1), at(t, 2)], [p, q, r] = corners.map((i) => numbers[i]);
        if (p === q || q === r || r === p) continue;
        write_normal(positions, ...corners, normals, 3 * t);
        for (let k = 0; k < 3; k++) {
            const a = corners[k], b = corners[(k + 1) % 3], there = numbers[a] * count + numbers[b], back = numbers[b] * count + numbers[a];
            const other = open.get(back);
            if (other === undefined) {
                open.set(there, [t, a, b]);
                continue;
            }
            const [s] = other;
            open.delete(back);
            const bend = normals[3 * s] * normals[3 * t] + normals[3 * s + 1] * normals[3 * t + 1] + normals[3 * s + 2] * normals[3 * t + 2];
            if (bend <= most) draw(a, b);
        }
    }
    for (const [, a, b] of open.values()) draw(a, b);
    return new Float32Array(lines);
}

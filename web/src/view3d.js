// view3d.js: the stove in three dimensions. Drawn when something changes, not all the time.
import { Box3, DoubleSide, FrontSide, Group, LineBasicMaterial, LineSegments, Mesh, PerspectiveCamera, Plane, Raycaster, Scene, Vector2,
    Vector3, WebGLRenderer } from "three";
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
import { edge_lines } from "./edges.js";
import { LitMaterial } from "./light.js";
import { Pool } from "./pool.js";
import { read_solid } from "./solid.js";

const edge_deg = 25, edges_at_once_ms = 8; // so long may lines be made before the page looks up again
const held_for = 6, kept_for = 8; // solids: geometry is told as held, and kept, that long after it was last shown
const held_most = 4000; // marks the server takes
const looks = { corner: [0.9, 0.55, 1.5], front: [0, 0.05, 1], side: [1, 0.05, 0], back: [0, 0.05, -1], top: [0, 1, 0.001] };
const axes = { x: [1, 0, 0], y: [0, 0, -1], z: [0, 1, 0] }; // of the stove, in the model's frame (y up, front towards +z)

export class View {
    constructor(host, label) {
        this.host = host;
        this.renderer = new WebGLRenderer({ antialias: !drawn_by_processor(), alpha: true, powerPreference: "low-power" });
        this.renderer.localClippingEnabled = true;
        this.renderer.setPixelRatio(drawn_by_processor() ? 1 : Math.min(devicePixelRatio, 2));
        this.canvas = this.renderer.domElement;
        this.canvas.tabIndex = 0;
        this.canvas.setAttribute("role", "application");
        this.canvas.setAttribute("aria-label", label ??
            "The stove in 3D. Arrow keys turn, plus and minus come closer and go back. Pieces are also in the list beside it.");
        host.append(this.canvas);
        this.scene = new Scene();
        this.camera = new PerspectiveCamera(32, 1, 0.02, 50);
        this.controls = new OrbitControls(this.camera, this.canvas);
        this.controls.enableDamping = false;
        this.on_turn = null; // called when somebody turns this view, not when it follows another
        this.controls.addEventListener("change", () => {
            this.draw();
            if (!this.following) this.on_turn?.(this);
        });
        this.plane = new Plane(new Vector3(1, 0, 0), 0);
        this.cut = { axis: "", share: 0.5 };
        this.hidden = new Set();
        this.pieces = [];
        this.shapes = new Map(); // mark -> as read, { lines, used } beside
        this.pool = new Pool();
        this.lines = new Pool();
        this.solids = 0;
        this.materials = new Map();
        this.groups = [];
        this.spread = 0;
        this.chosen = null;
        this.box = new Box3();
        this.on_pick = () => {};
        this.on_point = null; // (number or null) under the pointer
        this.watch_pointer();
        this.canvas.addEventListener("keydown", (e) => this.key(e));
        this.size = new ResizeObserver(() => this.fit());
        this.size.observe(host);
        this.edge_line = new LineBasicMaterial({ color: "#15181a", transparent: true, opacity: 0.55 });
    }

    close() {
        this.size.disconnect();
        this.clear();
        this.arch?.close();
        for (const m of this.materials.values()) m.dispose();
        this.controls.dispose();
        this.renderer.dispose();
        this.canvas.remove();
    }

    fit() {
        const { clientWidth: w, clientHeight: h } = this.host;
        if (w === 0 || h === 0) return;
        this.renderer.setSize(w, h, false);
        this.camera.aspect = w / h;
        this.camera.updateProjectionMatrix();
        if (this.arch) this.arch.set(w, h);
        this.draw();
    }

    /** Resolves when what was drawn last is on the screen: in the frame after its own. Who asks for pictures faster than they are
     *  shown sees ever older ones. */
    drawn() {
        return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    }

    /** Nothing is drawn beyond the arch of the opening (see arch.js). */
    stand_under(arch) {
        this.arch = arch;
        this.scene.add(arch.mesh);
        this.fit();
    }

    draw() {
        this.waiting ||= requestAnimationFrame(() => this.draw_now());
    }

    /** Without waiting for the next frame: what draws can begin. */
    draw_now() {
        cancelAnimationFrame(this.waiting);
        this.waiting = 0;
        this.renderer.render(this.scene, this.camera);
        this.host.dataset.drawn = String(this.solids);
    }

    clear() {
        clearTimeout(this.edge_timer);
        if (this.root) this.scene.remove(this.root);
        this.pool.forget();
        this.lines.forget();
        this.shapes.clear();
        this.pieces = [];
        this.root = null;
    }

    /** Marks of the geometry that need not be sent. */
    held() {
        return [...this.shapes].filter(([mark, s]) => this.solids - s.used < held_for && !mark.includes(" ")).map(([mark]) => mark).slice(-held_most);
    }

    /** A .glb of the server. The camera stays unless this is the first or `fresh`; lines follow unless it is `rough`. */
    load(bytes, fresh = false, rough = false) {
        const solid = read_solid(bytes), first = !this.root || fresh;
        this.take_shapes(solid);
        if (!this.has_the_pieces_of(solid)) this.build(solid);
        this.place(solid);
        this.paint(this.colours);
        this.arrange();
        if (first) this.look("corner");
        this.show_lines(!rough);
        this.draw_now();
    }

    take_shapes(solid) {
        this.solids += 1;
        for (const [mark, shape] of solid.shapes)
            if (!this.shapes.has(mark)) this.shapes.set(mark, { ...shape, lines: null, used: 0 });
        for (const p of solid.pieces) {
            if (!this.shapes.has(p.shape)) throw new Error("a shape is missing");
            this.shapes.get(p.shape).used = this.solids;
        }
        for (const [mark, shape] of this.shapes) if (this.solids - shape.used >= kept_for) this.shapes.delete(mark);
    }

    has_the_pieces_of(solid) {
        return this.root && solid.pieces.length === this.pieces.length && solid.groups.length === this.groups.length &&
            solid.groups.every((g, i) => g.name === this.groups[i].name) &&
            solid.pieces.every((p, i) => ["number", "copy", "name", "group", "role"].every((k) => p[k] === this.pieces[i][k]));
    }

    build(solid) {
        if (this.root) this.scene.remove(this.root);
        this.root = new Group();
        this.scene.add(this.root);
        const nodes = new Map();
        this.groups = solid.groups.map((g) => {
            const node = new Group();
            this.root.add(node);
            nodes.set(g.name, node);
            return { name: g.name, text: g.text, node };
        });
        this.pieces = solid.pieces.map(({ number, copy, name, group, role }) => {
            const clear = /glass|pane/i.test(`${role} ${name}`);
            const mesh = new Mesh(undefined, this.material_of(`${number} ${copy}`, clear));
            const edges = new LineSegments(undefined, number === this.chosen ? this.bold_line() : this.edge_line);
            edges.raycast = () => {};
            edges.visible = false;
            mesh.add(edges);
            (nodes.get(group) ?? this.root).add(mesh);
            return { mesh, edges, number, copy, name, group, role, clear, home: new Vector3(), centre: new Vector3(), shape: null };
        });
    }

    /** Every piece with its geometry where it belongs; what it measures. */
    place(solid) {
        solid.groups.forEach((g, i) => Object.assign(this.groups[i], { text: g.text, way: new Vector3(...g.way) }));
        this.box.makeEmpty();
        const box = new Box3(), ranges = this.pool.lay([...new Set(solid.pieces.map((p) => this.shapes.get(p.shape)))]);
        solid.pieces.forEach((from, i) => {
            const p = this.pieces[i], shape = (p.shape = this.shapes.get(from.shape));
            p.mesh.geometry = this.pool.set(i, ranges.get(shape), shape.low, shape.high);
            p.mesh.position.set(...from.at);
            p.mesh.quaternion.set(...from.turn);
            p.mesh.scale.setScalar(from.scale);
            p.mesh.updateMatrix();
            p.home.copy(p.mesh.position);
            box.copy(p.mesh.geometry.boundingBox).applyMatrix4(p.mesh.matrix);
            box.getCenter(p.centre);
            this.box.union(box);
        });
        this.host.dataset.box = this.box.getSize(new Vector3()).toArray().map((m) => (1000 * m).toFixed(2)).join(" "); // mm: width, height, depth
    }

    /** Kept from one solid to the next: a new material would have its shader compiled again. */
    material_of(copy, clear) {
        const key = `${copy} ${clear}`;
        if (!this.materials.has(key))
            this.materials.set(key, new LitMaterial({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
                transparent: clear, opacity: clear ? 0.7 : 1 }));
        return this.materials.get(key);
    }

    /** colours: (number, copy) -> css colour. */
    paint(colours) {
        this.colours = colours;
        if (!colours) return;
        let changed = false;
        for (const p of this.pieces) {
            const tone = `${colours(p.number, p.copy)} ${p.number === this.chosen}`;
            if (p.mesh.material.tone === tone) continue;
            changed = true;
            p.mesh.material.tone = tone;
            p.mesh.material.set_tone(colours(p.number, p.copy));
            p.mesh.material.set_glow(p.number === this.chosen ? "#b3521a" : "#000000", p.number === this.chosen ? 0.75 : 0);
        }
        if (changed) this.draw();
    }

    /** The stove as a shade with some pieces lit and drawn through what stands before them; an address for <img>. */
    still(numbers, width, height) {
        const lit = (p) => numbers.has(p.number), before = this.pieces.map((p) => p.mesh.material);
        this.shade ??= new LitMaterial({ color: "#9aa5a8", transparent: true, opacity: 0.16, depthWrite: false, side: DoubleSide, forceSinglePass: true });
        this.ember ??= new LitMaterial({ color: "#e0662a", emissive: "#b3521a", power: 0.55, side: DoubleSide, depthTest: false });
        this.show_lines(true);
        this.draw_edges(Infinity);
        this.edge_line.opacity = 0.16;
        for (const p of this.pieces) {
            p.mesh.material = lit(p) ? this.ember : this.shade;
            p.mesh.renderOrder = lit(p) ? 2 : 1;
        }
        this.renderer.setPixelRatio(1);
        this.renderer.setSize(width, height, false);
        this.camera.aspect = width / height;
        this.camera.updateProjectionMatrix();
        this.look("corner");
        this.camera.position.sub(this.controls.target).multiplyScalar(0.82).add(this.controls.target);
        this.controls.update();
        this.renderer.render(this.scene, this.camera);
        const address = this.ringed(this.pieces.filter(lit), width, height);
        this.pieces.forEach((p, i) => (p.mesh.material = before[i]));
        return address;
    }

    /** The picture as it is drawn, with a ring round each lit piece so small that light alone does not show it. */
    ringed(pieces, width, height) {
        const flat = document.createElement("canvas"), way = new Vector3();
        Object.assign(flat, { width, height });
        const pen = flat.getContext("2d");
        pen.drawImage(this.canvas, 0, 0, width, height);
        Object.assign(pen, { strokeStyle: "#d2521c", lineWidth: 3 });
        for (const p of pieces) {
            const box = new Box3().setFromObject(p.mesh), centre = box.getCenter(new Vector3()).project(this.camera);
            const corner = box.max.clone().project(this.camera), x = ((centre.x + 1) / 2) * width, y = ((1 - centre.y) / 2) * height;
            const radius = Math.hypot(((corner.x + 1) / 2) * width - x, ((1 - corner.y) / 2) * height - y), size = box.getSize(way).length();
            if (size > 0.25) continue;
            pen.beginPath();
            pen.arc(x, y, Math.max(14, radius + 6), 0, 2 * Math.PI);
            pen.stroke();
        }
        return flat.toDataURL("image/png");
    }

    /** As the other view stands. */
    stand_as(other) {
        this.camera.position.copy(other.camera.position);
        this.controls.target.copy(other.controls.target);
        this.following = true;
        this.controls.update();
        this.following = false;
        this.draw();
    }

    choose(number) {
        this.chosen = number;
        this.paint(this.colours);
        for (const p of this.pieces) p.edges.material = p.number === number ? this.bold_line() : this.edge_line;
        this.draw();
    }

    bold_line() {
        this.bold ??= new LineBasicMaterial({ color: "#ffb36b", clippingPlanes: this.edge_line.clippingPlanes });
        return this.bold;
    }

    hide(names) {
        this.hidden = names;
        this.arrange();
        this.draw();
    }

    explode(share) {
        const arm = this.camera.position.clone().sub(this.controls.target); // step back as far as the parts go apart
        arm.multiplyScalar((1 + 0.55 * share) / (1 + 0.55 * this.spread));
        this.camera.position.copy(this.controls.target).add(arm);
        this.controls.update();
        this.spread = share;
        this.arrange();
        this.draw();
    }

    arrange() {
        for (const g of this.groups) {
            g.node.visible = !this.hidden.has(g.name);
            g.node.position.copy(g.way).multiplyScalar(this.spread);
            const inside = this.pieces.filter((p) => p.group === g.name);
            const middle = inside.reduce((sum, p) => sum.add(p.centre), new Vector3()).divideScalar(Math.max(1, inside.length));
            for (const p of inside)
                p.mesh.position.copy(p.home).addScaledVector(p.centre.clone().sub(middle), 0.45 * this.spread);
        }
        this.clip();
    }

    section(axis, share) {
        this.cut = { axis, share };
        this.clip();
        this.draw();
    }

    clip() {
        let planes = [];
        if (this.cut.axis && this.root) {
            const way = new Vector3(...axes[this.cut.axis]);
            const ends = [this.box.min.dot(way), this.box.max.dot(way)].sort((a, b) => a - b);
            const at = ends[0] + (ends[1] - ends[0]) * this.cut.share;
            this.plane.normal.copy(way).negate();
            this.plane.constant = at;
            planes = [this.plane];
        }
        for (const p of this.pieces) {
            p.mesh.material.clippingPlanes = planes;
            p.mesh.material.side = planes.length ? DoubleSide : FrontSide; // plates are closed: only a cut shows their inside
        }
        this.edge_line.clippingPlanes = planes;
        if (this.bold) this.bold.clippingPlanes = planes;
    }

    /** Where the section stands, in mm of the stove's frame. */
    section_mm() {
        if (!this.cut.axis) return null;
        return this.plane.constant * 1000;
    }

    look(name) {
        const centre = this.box.getCenter(new Vector3()), size = this.box.getSize(new Vector3()).length() || 1;
        const way = new Vector3(...looks[name]).normalize();
        this.controls.target.copy(centre).addScaledVector(new Vector3(0, -1, 0), name === "top" ? 0 : size * 0.03);
        this.camera.position.copy(this.controls.target).addScaledVector(way, size * (2 + 1.1 * this.spread) * Math.max(1, 0.8 / this.camera.aspect));
        this.controls.update();
        this.draw();
    }

    /** Whether the edges are drawn as lines. They are made little by little, and only for geometry that has none yet. */
    show_lines(wanted) {
        clearTimeout(this.edge_timer);
        for (const p of this.pieces) p.edges.visible = false;
        if (wanted) this.edge_timer = setTimeout(() => this.draw_edges(edges_at_once_ms));
    }

    draw_edges(most_ms) {
        const until = performance.now() + most_ms, lines = new Map();
        clearTimeout(this.edge_timer);
        for (const p of this.pieces) {
            if (!p.shape.lines && performance.now() > until) {
                this.edge_timer = setTimeout(() => this.draw_edges(most_ms));
                return;
            }
            p.shape.lines ??= lines_of(p.shape, p.mesh.scale.x);
            lines.set(p.shape, p.shape.lines);
        }
        const ranges = this.lines.lay_lines(lines);
        this.pieces.forEach((p, i) => {
            p.edges.geometry = this.lines.set(i, ranges.get(p.shape), p.shape.low, p.shape.high);
            p.edges.visible = true;
        });
        this.host.dataset.lined = String(this.solids);
        this.draw();
    }

    watch_pointer() {
        let down = null;
        this.canvas.addEventListener("pointerdown", (e) => (down = [e.clientX, e.clientY]));
        this.canvas.addEventListener("pointerup", (e) => {
            if (down && Math.hypot(e.clientX - down[0], e.clientY - down[1]) < 5) this.on_pick(this.under(e));
            down = null;
        });
        let waits = false;
        this.canvas.addEventListener("pointermove", (e) => {
            if (!this.on_point || waits || e.buttons) return;
            waits = true;
            requestAnimationFrame(() => {
                waits = false;
                this.on_point?.(this.under(e));
            });
        });
        this.canvas.addEventListener("pointerleave", () => this.on_point?.(null));
    }

    under(e) {
        const r = this.canvas.getBoundingClientRect();
        const ray = new Raycaster();
        ray.setFromCamera(new Vector2(((e.clientX - r.left) / r.width) * 2 - 1, 1 - ((e.clientY - r.top) / r.height) * 2), this.camera);
        const seen = this.pieces.filter((p) => p.mesh instanceof Mesh && !this.hidden.has(p.group));
        for (const hit of ray.intersectObjects(seen.map((p) => p.mesh), false)) {
            if (this.cut.axis && this.plane.distanceToPoint(hit.point) < 0) continue;
            return seen.find((p) => p.mesh === hit.object).number;
        }
        return null;
    }

    key(e) {
        const turns = { ArrowLeft: [-0.12, 0], ArrowRight: [0.12, 0], ArrowUp: [0, -0.1], ArrowDown: [0, 0.1] };
        const arm = this.camera.position.clone().sub(this.controls.target);
        if (turns[e.key]) {
            const [round, up] = turns[e.key];
            arm.applyAxisAngle(new Vector3(0, 1, 0), round);
            const level = Math.acos(Math.max(-1, Math.min(1, arm.y / arm.length()))) + up;
            if (level > 0.05 && level < 3.09)
                arm.applyAxisAngle(new Vector3(arm.z, 0, -arm.x).normalize(), up);
        } else if (e.key === "+" || e.key === "=") arm.multiplyScalar(0.9);
        else if (e.key === "-") arm.multiplyScalar(1.1);
        else return;
        e.preventDefault();
        this.camera.position.copy(this.controls.target).add(arm);
        this.controls.update();
        this.draw();
    }
}

/** The lines of a shape's edges, in its own unit. */
function lines_of(shape, unit_m) {
    const { array, size } = shape.position, metres = new Float32Array((3 * array.length) / size);
    for (let i = 0; 3 * i < metres.length; i++) for (let k = 0; k < 3; k++) metres[3 * i + k] = array[size * i + k] * unit_m;
    return edge_lines(metres, shape.index.array, edge_deg).map((x) => x / unit_m);
}

/** Whether there is no graphics unit and the processor must draw: then corners of a picture's points are not smoothed, which costs
 * it most of its time. */
let by_processor = null;
export function drawn_by_processor() {
    if (by_processor === null) {
        const gl = document.createElement("canvas").getContext("webgl2"), about = gl?.getExtension("WEBGL_debug_renderer_info");
        by_processor = /swiftshader|llvmpipe|softpipe|software|basic render/i.test(about ? gl.getParameter(about.UNMASKED_RENDERER_WEBGL) : "");
        gl?.getExtension("WEBGL_lose_context")?.loseContext();
    }
    return by_processor;
}

/** Whether this browser can draw in three dimensions at all. */
export function can_draw() {
    try {
        return Boolean(document.createElement("canvas").getContext("webgl2"));
    } catch {
        return false;
    }
}

// view3d.js: the stove in three dimensions. Drawn when something changes, not all the time.
import { AmbientLight, Box3, BufferGeometry, Color, DirectionalLight, DoubleSide, Float32BufferAttribute, HemisphereLight, LineBasicMaterial,
    LineSegments, Mesh, MeshLambertMaterial, PerspectiveCamera, Plane, Raycaster, Scene, Vector2, Vector3, WebGLRenderer } from "three";
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
import { GLTFLoader } from "three/examples/jsm/loaders/GLTFLoader.js";
import { edge_lines } from "./edges.js";

const edges_after_ms = 350, edge_deg = 25;
const looks = { corner: [0.9, 0.55, 1.5], front: [0, 0.05, 1], side: [1, 0.05, 0], back: [0, 0.05, -1], top: [0, 1, 0.001] };
const axes = { x: [1, 0, 0], y: [0, 0, -1], z: [0, 1, 0] }; // of the stove, in the model's frame (y up, front towards +z)

export class View {
    constructor(host, label) {
        this.host = host;
        this.renderer = new WebGLRenderer({ antialias: !by_processor(), alpha: true, powerPreference: "low-power" });
        this.renderer.localClippingEnabled = true;
        this.renderer.setPixelRatio(by_processor() ? 1 : Math.min(devicePixelRatio, 2));
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
        this.scene.add(new HemisphereLight("#fdf6ea", "#3b342d", 1.6), new AmbientLight("#ffffff", 0.35));
        for (const [x, y, z, power] of [[2, 3, 3, 1.7], [-3, 1.5, 1, 0.7], [0, 2, -3, 0.6]]) {
            const light = new DirectionalLight("#ffffff", power);
            light.position.set(x, y, z);
            this.scene.add(light);
        }
        this.plane = new Plane(new Vector3(1, 0, 0), 0);
        this.cut = { axis: "", share: 0.5 };
        this.hidden = new Set();
        this.pieces = [];
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
        this.draw();
    }

    draw() {
        if (this.waiting) return;
        this.waiting = requestAnimationFrame(() => {
            this.waiting = 0;
            this.renderer.render(this.scene, this.camera);
        });
    }

    clear() {
        clearTimeout(this.edge_timer);
        for (const p of this.pieces) {
            p.mesh.geometry.dispose();
            p.edges?.geometry.dispose();
        }
        if (this.root) this.scene.remove(this.root);
        this.pieces = [];
    }

    /** A .glb of the server. The camera stays unless this is the first or `fresh`. */
    async load(bytes, fresh = false) {
        const gltf = await new GLTFLoader().parseAsync(bytes, "");
        const first = !this.root || fresh;
        this.clear();
        this.root = gltf.scene;
        this.groups = [];
        this.root.updateMatrixWorld(true);
        this.root.traverse((node) => this.take(node));
        this.scene.add(this.root);
        this.box.setFromObject(this.root);
        this.paint(this.colours);
        this.arrange();
        if (first) this.look("corner");
        this.edge_timer = setTimeout(() => this.draw_edges(), edges_after_ms);
        this.draw();
    }

    take(node) {
        const about = node.userData ?? {};
        if (about.explode_m) {
            const group = { name: about.group, text: node.name, node, way: new Vector3(...about.explode_m), home: node.position.clone() };
            this.groups.push(group);
            return;
        }
        if (!node.isMesh) return;
        let owner = node;
        while (owner && !owner.userData?.number) owner = owner.parent;
        if (!owner) return;
        const mesh = node;
        const clear = /glass|pane/i.test(`${owner.userData.role} ${owner.userData.name}`);
        mesh.material = this.material_of(`${owner.userData.number} ${owner.userData.copy ?? 1}`, clear);
        const centre = new Box3().setFromObject(mesh).getCenter(new Vector3());
        this.pieces.push({ mesh, owner, number: owner.userData.number, name: owner.userData.name, group: owner.userData.group,
            copy: owner.userData.copy ?? 1, clear, home: owner.position.clone(), centre });
    }

    /** Kept from one solid to the next: a new material would have its shader compiled again. */
    material_of(copy, clear) {
        const key = `${copy} ${clear}`;
        if (!this.materials.has(key))
            this.materials.set(key, new MeshLambertMaterial({ side: DoubleSide, polygonOffset: true,
                polygonOffsetFactor: 1, polygonOffsetUnits: 1, transparent: clear, opacity: clear ? 0.45 : 1 }));
        return this.materials.get(key);
    }

    /** colours: (number, copy) -> css colour. */
    paint(colours) {
        this.colours = colours;
        if (!colours) return;
        for (const p of this.pieces) {
            p.mesh.material.color = new Color(colours(p.number, p.copy));
            p.mesh.material.emissive = new Color(p.number === this.chosen ? "#b3521a" : "#000000");
            p.mesh.material.emissiveIntensity = p.number === this.chosen ? 0.75 : 0;
        }
        this.draw();
    }

    /** The stove as a shade with some pieces lit and drawn through what stands before them; an address for <img>. */
    still(numbers, width, height) {
        const lit = (p) => numbers.has(p.number), before = this.pieces.map((p) => p.mesh.material);
        this.shade ??= new MeshLambertMaterial({ color: "#9aa5a8", transparent: true, opacity: 0.16, depthWrite: false, side: DoubleSide });
        this.ember ??= new MeshLambertMaterial({ color: "#e0662a", emissive: "#b3521a", emissiveIntensity: 0.55, side: DoubleSide, depthTest: false });
        clearTimeout(this.edge_timer);
        if (!this.pieces.some((p) => p.edges)) this.draw_edges();
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
        for (const p of this.pieces) if (p.edges) p.edges.material = p.number === number ? this.bold_line() : this.edge_line;
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
            g.node.position.copy(g.home).addScaledVector(g.way, this.spread);
            const inside = this.pieces.filter((p) => p.group === g.name);
            const middle = inside.reduce((sum, p) => sum.add(p.centre), new Vector3()).divideScalar(Math.max(1, inside.length));
            for (const p of inside)
                p.owner.position.copy(p.home).addScaledVector(p.centre.clone().sub(middle), 0.45 * this.spread);
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
        for (const p of this.pieces) p.mesh.material.clippingPlanes = planes;
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

    draw_edges() {
        const made = new Map();
        for (const p of this.pieces) {
            if (!(p.mesh.geometry instanceof BufferGeometry)) continue;
            let g = made.get(p.mesh.geometry);
            if (!g) made.set(p.mesh.geometry, (g = edges_of(p.mesh.geometry)));
            p.edges = new LineSegments(g, p.number === this.chosen ? this.bold_line() : this.edge_line);
            p.edges.raycast = () => {};
            p.mesh.add(p.edges);
        }
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

function edges_of(geometry) {
    const { position } = geometry.attributes, own = position.isInterleavedBufferAttribute ? position.clone() : position;
    const lines = new BufferGeometry();
    lines.setAttribute("position", new Float32BufferAttribute(edge_lines(own.array, geometry.index?.array ?? null, edge_deg), 3));
    return lines;
}

/** Whether there is no graphics unit and the processor must draw: then corners of a picture's points are not smoothed, which costs
 * it most of its time. */
let drawn_by_processor = null;
function by_processor() {
    if (drawn_by_processor === null) {
        const gl = document.createElement("canvas").getContext("webgl2"), about = gl?.getExtension("WEBGL_debug_renderer_info");
        drawn_by_processor = /swiftshader|llvmpipe|softpipe|software|basic render/i.test(about ? gl.getParameter(about.UNMASKED_RENDERER_WEBGL) : "");
        gl?.getExtension("WEBGL_lose_context")?.loseContext();
    }
    return drawn_by_processor;
}

/** Whether this browser can draw in three dimensions at all. */
export function can_draw() {
    try {
        return Boolean(document.createElement("canvas").getContext("webgl2"));
    } catch {
        return false;
    }
}

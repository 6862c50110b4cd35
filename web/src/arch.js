// arch.js: keeps the stove inside the arch of the opening. What lies beyond the arch is laid nearest to the eye without colour, so
// that nothing behind it is drawn; cutting the picture along the arch's style instead would cost every frame of the page.
import { BufferAttribute, BufferGeometry, Mesh, ShaderMaterial } from "three";

const steps = 48; // along the arch

export class Arch {
    constructor() {
        const geometry = new BufferGeometry(), index = [];
        this.points = new BufferAttribute(new Float32Array(3 * 2 * (steps + 1)), 3);
        for (let i = 0; i < steps; i++) index.push(2 * i, 2 * i + 1, 2 * i + 2, 2 * i + 2, 2 * i + 1, 2 * i + 3);
        geometry.setAttribute("position", this.points);
        geometry.setIndex(index);
        this.mesh = new Mesh(geometry, new ShaderMaterial({ colorWrite: false, depthTest: true, depthWrite: true,
            vertexShader: "void main() { gl_Position = vec4(position.xy, -1.0, 1.0); }", fragmentShader: "void main() { gl_FragColor = vec4(0.0); }" }));
        this.mesh.frustumCulled = false;
        this.mesh.renderOrder = -1;
        this.mesh.raycast = () => {};
    }

    /** Of a picture w by h points: the arch is half an ellipse as wide as the picture. */
    set(w, h) {
        const rise = Math.max(0, 0.13 * (h + 25) - 9); // .mouth in style.css: 13 % of all, a frame of 9 and 16
        for (let i = 0; i <= steps; i++) {
            const angle = (Math.PI * i) / steps, x = -Math.cos(angle), y = 1 - (2 * rise * (1 - Math.sin(angle))) / h;
            this.points.setXYZ(2 * i, x, 1.001, 0);
            this.points.setXYZ(2 * i + 1, x, y, 0);
        }
        this.points.needsUpdate = true;
    }

    close() {
        this.mesh.geometry.dispose();
        this.mesh.material.dispose();
    }
}

// light.js: how the stove is lit. Light is reckoned at the corners of the triangles, once for each side, and not again at every
// point of the picture: plates look the same, and a machine without a graphics unit draws them several times as fast.
import { Color, FrontSide, ShaderMaterial } from "three";

// Sky and ground, all round, and three lamps: direction in the model's frame (y up, front towards +z), power. Lambert's law.
const sky = new Color("#fdf6ea").multiplyScalar(1.6), ground = new Color("#3b342d").multiplyScalar(1.6), all_round = 0.35;
const lamps = [[2, 3, 3, 1.7], [-3, 1.5, 1, 0.7], [0, 2, -3, 0.6]];

const number = (x) => x.toFixed(6), vector = (v) => `vec3(${[...v].map(number).join()})`;
const unit = ([x, y, z]) => [x, y, z].map((c) => c / Math.hypot(x, y, z));
const from_lamps = lamps.map(([x, y, z, power]) => `${number(power)} * max(0.0, dot(n, ${vector(unit([x, y, z]))}))`).join(" + ");

const corners = `
uniform vec3 tone, glow;
varying vec3 front, back;
#include <clipping_planes_pars_vertex>
vec3 lit(vec3 n) {
    vec3 light = mix(${vector(ground)}, ${vector(sky)}, 0.5 * n.y + 0.5) + vec3(${number(all_round)} + ${from_lamps});
    return encoded(vec4(tone * light * ${number(1 / Math.PI)} + glow, 1.0)).rgb;
}
void main() {
    vec3 n = normalize(mat3(modelMatrix) * normal);
    front = lit(n);
    back = lit(-n);
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    gl_Position = projectionMatrix * mvPosition;
    #include <clipping_planes_vertex>
}`;

const points = `
uniform float cover;
varying vec3 front, back;
#include <clipping_planes_pars_fragment>
void main() {
    #include <clipping_planes_fragment>
    gl_FragColor = vec4(gl_FrontFacing ? front : back, cover);
}`;

const oetf = `
vec4 encoded(in vec4 c) {
    return vec4(mix(pow(c.rgb, vec3(0.41666)) * 1.055 - vec3(0.055), c.rgb * 12.92, vec3(lessThanEqual(c.rgb, vec3(0.0031308)))), c.a);
}`;

export class LitMaterial extends ShaderMaterial {
    /** color, emissive: css colours; power: of the emissive one; opacity; the rest as three's materials take it. */
    constructor({ color = "#ffffff", emissive = "#000000", power = 1, opacity = 1, ...rest } = {}) {
        super({ side: FrontSide, clipping: true, vertexShader: oetf + corners, fragmentShader: points,
            uniforms: { tone: { value: new Color(color) }, glow: { value: new Color(emissive).multiplyScalar(power) }, cover: { value: opacity } }, ...rest });
    }
    set_tone(color) {
        this.uniforms.tone.value.set(color);
    }
    set_glow(color, power) {
        this.uniforms.glow.value.set(color).multiplyScalar(power);
    }
}

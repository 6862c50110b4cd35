// check_glb.js FILE.glb: says what the Khronos validator finds; exit 1 on any error or warning.
const fs = require("fs");
const validator = require("gltf-validator");
validator.validateBytes(new Uint8Array(fs.readFileSync(process.argv[2])), { uri: process.argv[2] }).then((report) => {
    const { numErrors, numWarnings, numInfos, messages } = report.issues;
    for (const m of messages.slice(0, 20)) console.log(`${m.code} ${m.pointer}: ${m.message}`);
    const { totalTriangleCount, materialCount, drawCallCount } = report.info;
    console.log(`${numErrors} errors, ${numWarnings} warnings, ${numInfos} infos; ${totalTriangleCount} triangles, ${materialCount} materials, ${drawCallCount} draw calls`);
    process.exit(numErrors + numWarnings > 0 ? 1 : 0);
}, (error) => { console.error(String(error)); process.exit(1); });

#!/usr/bin/env bash
# check_gltf.sh PROGRAM DEMO: makes the dossier of demo stove DEMO, without and with the surface map, and lets the Khronos
# validator judge its glTF.
set -euo pipefail
cd "$(dirname "$0")/../.."
[ -d tests/papers/gltf/node_modules ] || (cd tests/papers/gltf && npm ci --ignore-scripts --no-audit --no-fund --silent)
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
for map in "" --map; do
    status=0
    "$1" make "demo/$2.stove.lua" --works demo/demo.works.lua $map --out "$out/dossier$map" >"$out/said" || status=$?
    [ "$status" -le 1 ] || { cat "$out/said"; exit 1; }
    for file in stove stove-heat; do node tests/papers/gltf/check_glb.js "$out/dossier$map/$file.glb"; done
done

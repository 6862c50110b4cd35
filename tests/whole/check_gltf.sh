#!/usr/bin/env bash
# check_gltf.sh PROGRAM DEMO: makes the dossier of demo stove DEMO and lets the Khronos validator judge its glTF.
set -euo pipefail
cd "$(dirname "$0")/../.."
[ -d tests/papers/gltf/node_modules ] || (cd tests/papers/gltf && npm ci --ignore-scripts --no-audit --no-fund --silent)
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
status=0
"$1" make "demo/$2.stove.lua" --works demo/demo.works.lua --out "$out/dossier" >"$out/said" || status=$?
[ "$status" -le 1 ] || { cat "$out/said"; exit 1; }
node tests/papers/gltf/check_glb.js "$out/dossier/stove.glb"

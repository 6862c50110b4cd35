#!/usr/bin/env bash
# build.sh PRESET [TARGET...]: configures once, builds, prints only what went wrong.
set -euo pipefail
top=$(cd "$(dirname "$0")/.." && pwd)
cd "$top"
preset=$1
shift
log=build/$preset.log
mkdir -p build
[ -f "build/$preset/build.ninja" ] || cmake --preset "$preset" >"$log" 2>&1 || { cat "$log" >&2; exit 3; }
if ! ninja -C "build/$preset" "$@" >"$log" 2>&1; then
    grep -vE '^\[[0-9]+/[0-9]+\] (Building|Linking)' "$log" | head -n 80 >&2
    echo "The build did not work; the whole output is in $log" >&2
    exit 3
fi
if [ "$preset" = release ]; then ln -sfn build/release/compile_commands.json compile_commands.json; fi

#!/usr/bin/env bash
# Refuses a name shared between files of ours that a library we link has as well: the linker would take ours for both.
# check_names.sh [BUILD]: a folder where stovewright is built (default build/release).
set -euo pipefail
cd "$(dirname "$0")/.."
build=${1:-build/release}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
nm -g --defined-only "$build"/libsw_*.a 2>/dev/null | awk '$2 ~ /[BDRT]/ { print $3 }' | sort -u >"$work/ours"
ldd "$build/stovewright" | awk '$3 ~ /^\// { print $3 }' | while read -r library; do
    nm -D --defined-only "$library" | awk '{ sub(/@.*/, "", $3); print $3 }'
done | sort -u >"$work/theirs"
[ -s "$work/ours" ] && [ -s "$work/theirs" ] || { echo "names: nothing to compare in $build"; exit 1; }
both=$(comm -12 "$work/ours" "$work/theirs")
[ -z "$both" ] || { echo "names of ours that a linked library has, too; rename them:"; echo "$both"; exit 1; }
echo "names: none is a linked library's"

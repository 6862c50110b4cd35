#!/usr/bin/env bash
# Solves every deck of this folder with CalculiX (ccx) and prints "deck what node-or-set value": run.sh >reference.txt.
set -euo pipefail
cd "$(dirname "$0")"
command -v ccx >/dev/null || { echo "ccx is missing; install calculix-ccx" >&2; exit 1; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
for file in *.inp; do
    deck=${file%.inp}
    cp "$file" "$work"
    (cd "$work" && OMP_NUM_THREADS=1 ccx "$deck" >"$deck.log" 2>&1) || true
    if grep -q '\*ERROR' "$work/$deck.log"; then echo "$deck: $(grep -m1 -A1 '\*ERROR' "$work/$deck.log")" >&2; exit 1; fi
    awk -v deck="$deck" '
        /total heat generation/ { set = $6; heat = 1; next }
        /temperatures for set/ { time = $NF + 0; heat = 0; next }
        NF == 1 && heat { print deck, "heat_w", set, $1 + 0; heat = 0; next }
        NF == 2 { print deck, "degC_at_" time "_s", $1, $2 + 0 }' CONVFMT=%.7g OFMT=%.7g "$work/$deck.dat"
done

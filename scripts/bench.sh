#!/usr/bin/env bash
# bench.sh [NAME...]: runs the benchmarks one at a time; figures are one machine's.
set -euo pipefail
cd "$(dirname "$0")/.."
for program in build/release/bench_bench_*; do
    [ -x "$program" ] && [ -f "$program" ] || continue
    name=${program##*/bench_bench_}
    if [ $# -gt 0 ]; then case " $* " in *" $name "*) ;; *) continue ;; esac; fi
    echo "== $name"
    "$program"
done

#!/usr/bin/env bash
# fuzz.sh [RUNS]: every fuzzer of fuzz/ for a fixed number of runs (default 20000) from fixed seeds and a fixed random
# start, so that a run can be repeated. Seeds: fuzz/seeds, and for descriptions the examples and the tests' wrong ones.
set -euo pipefail
top=$(cd "$(dirname "$0")/.." && pwd)
cd "$top"
runs=${1:-20000}
names=(description dxf motion csv measured trial)
scripts/build.sh fuzz "${names[@]/#/fuzz_fuzz_}"

corpus=build/fuzz/corpus
rm -rf "$corpus"
mkdir -p "$corpus"
for name in "${names[@]}"; do
    mkdir "$corpus/$name"
    [ ! -d "fuzz/seeds/$name" ] || find "fuzz/seeds/$name" -type f -exec cp -t "$corpus/$name" {} +
done
first=0 # the first byte of a description chooses its language
for language in stove works house; do
    for file in src/app/example/*."$language".lua tests/design/wrong/*."$language".lua; do
        [ -f "$file" ] || continue
        { printf '%s' "$first"; cat "$file"; } >"$corpus/description/$(basename "$file")"
    done
    first=$((first + 1))
done

export LSAN_OPTIONS=suppressions=$top/tests/leaks.supp:print_suppressions=0
fuzz_one() { # NAME RUNS, in build/fuzz
    if ! "./fuzz_fuzz_$1" -seed=1 -runs="$2" -max_len=4096 -timeout=20 "corpus/$1" >"$1.log" 2>&1; then
        tail -n 40 "$1.log"
        echo "The fuzzer of $1 found a fault; its input lies in build/fuzz, the whole output in build/fuzz/$1.log"
        return 1
    fi
}
export -f fuzz_one
cd build/fuzz
printf '%s\n' "${names[@]}" | xargs -I{} -P "$(nproc)" bash -c "fuzz_one {} $runs"
echo "fuzz: ${names[*]}, $runs runs each, no fault"

#!/usr/bin/env bash
# coverage.sh: lines of src executed by the tests, a folder a line (needs lcov). Failing tests are named at the end.
set -euo pipefail
cd "$(dirname "$0")/.."
command -v lcov >/dev/null || { echo "please install lcov"; exit 3; }
scripts/build.sh coverage
find build/coverage -name '*.gcda' -delete
failed=0
ctest --test-dir build/coverage -j "$(nproc)" >build/coverage/tests.log 2>&1 || failed=1
lcov --quiet --capture --directory build/coverage --output-file build/coverage/all.info 2>build/coverage/lcov.log || { tail build/coverage/lcov.log; exit 3; }
lcov --quiet --extract build/coverage/all.info "$PWD/src/*" --output-file build/coverage/src.info 2>>build/coverage/lcov.log
# LH and LF of a file: lines executed, lines there are
awk -F '[:,]' -v top="$PWD/src/" '
    /^SF:/ { folder = substr($0, 4 + length(top)); sub("/[^/]*$", "", folder) }
    /^LH:/ { hit[folder] += $2; all_hit += $2 }
    /^LF:/ { found[folder] += $2; all_found += $2 }
    END {
        for (f in found) printf "%-16s %6d of %6d lines  %5.1f %%\n", f, hit[f], found[f], 100 * hit[f] / found[f] | "sort"
        close("sort")
        printf "%-16s %6d of %6d lines  %5.1f %%\n", "all", all_hit, all_found, 100 * all_hit / all_found
    }' build/coverage/src.info
[ "$failed" = 0 ] || { grep -E 'Failed|Timeout|passed' build/coverage/tests.log; exit 1; }

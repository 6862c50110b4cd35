#!/usr/bin/env bash
# coverage.sh: lines executed by the tests (needs lcov).
set -euo pipefail
cd "$(dirname "$0")/.."
command -v lcov >/dev/null || { echo "please install lcov"; exit 3; }
scripts/build.sh coverage
ctest --test-dir build/coverage -j 2 >/dev/null
lcov --quiet --capture --directory build/coverage --output-file build/coverage/all.info
lcov --quiet --extract build/coverage/all.info "$PWD/src/*" --output-file build/coverage/src.info
lcov --list build/coverage/src.info

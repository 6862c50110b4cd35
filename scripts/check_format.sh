#!/usr/bin/env bash
# Refuses sources that clang-format (version 14) would change.
set -euo pipefail
cd "$(dirname "$0")/.."
clang-format --version | grep -q 'version 14\.' || { echo "clang-format 14 is wanted, so that all see the same format"; exit 1; }
find src tests bench fuzz -name '*.[ch]' -print0 | xargs -0 clang-format --dry-run --Werror
echo "format: as clang-format leaves it"

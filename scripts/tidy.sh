#!/usr/bin/env bash
# tidy.sh [FILE...]: clang-tidy over the sources with the project's settings.
set -euo pipefail
cd "$(dirname "$0")/.."
dpkg-query -W -f='${Status}' clang-tidy 2>/dev/null | grep -q 'ok installed' || { echo "please install clang-tidy"; exit 3; }
if [ $# -gt 0 ]; then files=("$@"); else mapfile -t files < <(find src -name '*.c' | sort); fi
printf '%s\0' "${files[@]}" | xargs -0 -n 4 -P 2 clang-tidy --quiet -p build/release

#!/usr/bin/env bash
# web.sh: installs the page's pinned packages when they changed and bundles the page into web/dist. Without Node.js it says so
# and leaves with 0: the program serves its built-in page then. Nothing changed: no output, well under a second.
set -euo pipefail
top=$(cd "$(dirname "$0")/.." && pwd)
cd "$top/web"
if ! command -v node >/dev/null || ! command -v npm >/dev/null; then
    echo "The workbench's page is not built: node or npm is missing (scripts/install.sh test installs them)." >&2
    exit 0
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
fail() {
    tail -n 30 "$log" >&2
    echo "The workbench's page could not be built." >&2
    exit 3
}
if [ ! -e node_modules/.package-lock.json ] || [ package-lock.json -nt node_modules/.package-lock.json ]; then
    npm ci --ignore-scripts --no-audit --no-fund >"$log" 2>&1 || fail
    touch node_modules/.package-lock.json
fi
if [ ! -e dist/index.html ] || [ -n "$(find src index.html icon.svg build.mjs package-lock.json -newer dist/index.html -print -quit)" ]; then
    node build.mjs >"$log" 2>&1 || fail
    touch dist/index.html
fi

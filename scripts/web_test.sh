#!/usr/bin/env bash
# web_test.sh PROGRAM: the workbench in a real browser, served by PROGRAM (stovewright) from a copy of demo/. All of
# web/test/*.test.mjs. What is missing is an error, never a test that silently does not run.
set -euo pipefail
top=$(cd "$(dirname "$0")/.." && pwd)
program=$(realpath "$1")
missing() {
    echo "$1 is missing, so the workbench cannot be tested; scripts/install.sh test installs it." >&2
    exit 3
}
command -v node >/dev/null || missing node
command -v npm >/dev/null || missing npm
[ -x "${CHROMIUM:-/usr/bin/chromium}" ] || missing "The browser (${CHROMIUM:-/usr/bin/chromium})"
"$top/scripts/web.sh"
cd "$top/web"
STOVEWRIGHT=$program node --test --test-concurrency="$(nproc)" --test-reporter=spec test/*.test.mjs
echo "Once more against the small server of test/mock.mjs: what needs answers made for it"
exec node --test --test-reporter=spec test/pictures.test.mjs

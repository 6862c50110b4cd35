#!/bin/sh
# No function of two libraries may carry the same name: the linker would take the first for both.
# usage: check_symbols.sh BUILD_FOLDER
set -eu
twice=$(nm -A --defined-only "$1"/libsw_*.a 2>/dev/null | awk '$2 ~ /^[TDRB]$/ { print $3 }' | sort | uniq -d)
if [ -n "$twice" ]; then
    echo "symbols: defined in two libraries: $twice" >&2
    exit 1
fi
echo "symbols: every function has a name of its own"

#!/usr/bin/env bash
# Refuses an include that runs against src/layers, a header that does not compile alone, and unit literals or stdio
# output outside base/ (style rules marked "gate").
set -euo pipefail
cd "$(dirname "$0")/.."
fault=0

find src -name '*.[ch]' | sort | xargs awk '
    FILENAME == "src/layers" {
        if ($0 ~ /^[a-z]/) { split($0, half, ":"); may[half[1]] = " " half[1] " " half[2] " " }
        next
    }
    FNR == 1 {
        folder = FILENAME; sub(/^src\//, "", folder); sub(/\/[^\/]*$/, "", folder)
        if (!(folder in may)) { print FILENAME ": folder " folder " has no line in src/layers"; fault = 1 }
    }
    folder in may && /^#include "/ {
        split($0, part, "\""); included = part[2]; target = included
        sub(/\/[^\/]*$/, "", target)
        if (index(may[folder], " " target " ") == 0) {
            print FILENAME ": includes " included ", but src/layers does not let " folder " include " target; fault = 1
        }
        if (included ~ /_parts\.h$/ && target != folder) { print FILENAME ": " included " is for its own folder"; fault = 1 }
    }
    END { exit fault }' src/layers || fault=1

flags=$(pkg-config --cflags lua5.4 cairo freetype2 fontconfig jansson)
for header in $(find src -name '*.h' | sort); do
    gcc -std=c17 -D_POSIX_C_SOURCE=200809L -fsyntax-only -Isrc $flags -x c "$header" || { echo "$header does not compile alone"; fault=1; }
done

literals=$(grep -rnE '(\b273\.15\b|\b3600(\.0)?\b|\b3\.6e6\b|M_PI)' src --include='*.[ch]' | grep -v '^src/base/base.h' || true)
[ -z "$literals" ] || { echo "unit literals outside base/base.h:"; echo "$literals"; fault=1; }
output=$(grep -rnE '\b(printf|fprintf|puts|fputs|fwrite|putchar)\(' src --include='*.c' | grep -vE '^src/base/(status|writer)\.c' || true)
[ -z "$output" ] || { echo "stdio output outside the writer:"; echo "$output"; fault=1; }

[ $fault = 0 ] && echo "layers: every include runs the right way"
exit $fault

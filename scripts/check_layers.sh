#!/usr/bin/env bash
# Refuses an include that runs against src/layers, a header that does not compile alone, and unit literals or stdio
# output outside base/ (style rules marked "gate").
set -euo pipefail
cd "$(dirname "$0")/.."
fault=0

declare -A may
while IFS=: read -r folder below; do
    case $folder in ''|\#*) continue ;; esac
    may[$folder]=" $folder $below "
done <src/layers

while IFS= read -r file; do
    folder=$(dirname "${file#src/}")
    [ -n "${may[$folder]:-}" ] || { echo "$file: folder $folder has no line in src/layers"; fault=1; continue; }
    while IFS= read -r included; do
        target=$(dirname "$included")
        case ${may[$folder]} in *" $target "*) ;; *) echo "$file: includes $included, but src/layers does not let $folder include $target"; fault=1 ;; esac
        case $(basename "$included") in *_parts.h) [ "$target" = "$folder" ] || { echo "$file: $included is for its own folder"; fault=1; } ;; esac
    done < <(sed -nE 's/^#include "([^"]+)".*/\1/p' "$file")
done < <(find src -name '*.[ch]' | sort)

for header in $(find src -name '*.h' | sort); do
    gcc -std=c17 -D_POSIX_C_SOURCE=200809L -fsyntax-only -Isrc $(pkg-config --cflags lua5.4 cairo freetype2 fontconfig jansson) -x c "$header" || { echo "$header does not compile alone"; fault=1; }
done

literals=$(grep -rnE '(\b273\.15\b|\b3600(\.0)?\b|\b3\.6e6\b|M_PI)' src --include='*.[ch]' | grep -v '^src/base/base.h' || true)
[ -z "$literals" ] || { echo "unit literals outside base/base.h:"; echo "$literals"; fault=1; }
output=$(grep -rnE '\b(printf|fprintf|puts|fputs|fwrite|putchar)\(' src --include='*.c' | grep -vE '^src/base/(status|writer)\.c' || true)
[ -z "$output" ] || { echo "stdio output outside the writer:"; echo "$output"; fault=1; }

[ $fault = 0 ] && echo "layers: every include runs the right way"
exit $fault

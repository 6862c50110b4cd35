#!/usr/bin/env bash
# Refuses a "handbook 4.3", "handbook F6.2", "handbook E17", "handbook FS-8" or "handbook TT-2" anywhere in the tree that has no row in docs/sources.md.
set -euo pipefail
cd "$(dirname "$0")/.."
# a tag may break over two lines of a comment; validation.md repeats the tags of the tests
tags=$(grep -rIioHzE "handbook( workshop\.md| table)?[[:space:]*/#-]+([WFST]?[0-9]+(\.[0-9]+)|F1[0-9]|E[0-9]+|FS-[0-9]+|TT-[0-9]+)" src demo tests bench fuzz docs ./*.md \
    --exclude=sources.md --exclude=validation.md --exclude-dir=node_modules | tr '\n' ' ' | tr '\0' '\n')
[ -n "$tags" ] || { echo "sources: no tag found, so nothing was compared"; exit 1; }
rows=$(sed -nE 's/^\| ([WFST]?[0-9]+(\.[0-9]+)?|E[0-9]+|FS-[0-9]+|TT-[0-9]+) \|.*/\1/p' docs/sources.md)
fault=0
while IFS= read -r line; do
    tag=${line##*[!WFSTE0-9.-]}
    grep -qxF -- "$tag" <<<"$rows" || { echo "${line%%:*}: handbook $tag has no row in docs/sources.md"; fault=1; }
done < <(sort -u <<<"$tags")
[ "$fault" = 0 ] || exit 1
echo "sources: $(wc -l <<<"$tags") tags, each with its row"

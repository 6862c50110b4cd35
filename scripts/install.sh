#!/usr/bin/env bash
# install.sh SET...: installs the packages of scripts/packages that are missing (sets: build, test). Says what it does;
# asks for sudo only when something is missing and we are not root. Nothing missing: no output, well under a second.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)

missing=()
for set_name in "$@"; do
    while read -r set_of package; do
        [ "$set_of" = "$set_name" ] || continue
        case $package in
            nodejs) command -v node >/dev/null && continue ;;
            npm) command -v npm >/dev/null && continue ;;
        esac
        dpkg-query -W -f='${Status}\n' "$package" 2>/dev/null | grep -q '^install ok installed' || missing+=("$package")
    done <"$here/packages"
done
[ ${#missing[@]} -gt 0 ] || exit 0

echo "Installing from Debian: ${missing[*]}"
sudo=()
if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null || { echo "Please install these packages as root, then run again: ${missing[*]}" >&2; exit 3; }
    echo "(needs administrator rights: sudo may ask for your password)"
    sudo=(sudo)
fi
log=$(mktemp)
if ! { "${sudo[@]}" apt-get update && "${sudo[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}"; } >"$log" 2>&1; then
    tail -n 20 "$log" >&2
    echo "The installation did not work; the whole output is in $log" >&2
    exit 3
fi
rm -f "$log"

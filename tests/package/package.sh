#!/usr/bin/env bash
# The Debian package: made twice, and the same bytes both times; without a complaint of lintian; its completions in the
# shells, and itself on a bare Debian 12. With RIGDEED_TWIN set the program is built again from the commit, too, in
# another folder: that takes as long as the first build.
#
# usage: package.sh BUILD
set -uo pipefail
cd "$(dirname "$0")/../.."
source tests/counting.sh
build=$(readlink -f "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct)
export SOURCE_DATE_EPOCH
version=$(sed -n 's/^project(rigdeed VERSION \([0-9.]*\).*/\1/p' CMakeLists.txt)
deb=rigdeed_${version}_$(dpkg --print-architecture).deb
package() { cmake --build "$1" --target rigdeed manuals && (cd "$1" && rm -f ./*.deb && rm -rf packaged/done && cmake --build . --target manuals && cpack -G DEB); }
twin() {
  mkdir "$work/twin" && git archive HEAD | tar -x -C "$work/twin" &&
    cmake -S "$work/twin" -B "$work/twin/made" -G Ninja -DCMAKE_BUILD_TYPE=Release -DRIGDEED_TESTS=OFF && package "$work/twin/made"
}
expect "the package is made" package "$build"
expect "lintian has nothing to say" bash -c '! lintian --tag-display-limit 0 --fail-on error,warning "$1" 2>/dev/null | grep -E "^[EW]:"' - "$build/$deb"
expect "lintian looked at it" bash -c 'lintian --tag-display-limit 0 --display-info "$1" 2>&1 | grep -qvE "^$" || lintian --version' - "$build/$deb"
expect "the list of parts names what is linked" python3 - "$build/packaged/rigdeed.spdx.json" <<'PY'
import json, sys
document = json.load(open(sys.argv[1]))
names = {one["name"]: one["versionInfo"] for one in document["packages"]}
assert document["spdxVersion"] == "SPDX-2.3" and len(names) == len(document["packages"])
for wanted in ("libssl3", "libexiv2-27", "libheif1", "libhpdf-2.3.0", "fonts-lato", "libcli11-dev"):
    assert names.get(wanted), wanted
PY
for page in "$build"/packaged/man/man*/*.gz; do
  expect "man has no complaint about $(basename "$page")" bash -c '[ -z "$(man --warnings=w -E UTF-8 -l -Tutf8 "$1" 2>&1 >/dev/null)" ]' - "$page"
done
add_counts_of "completions.sh" tests/package/completions.sh "$build/rigdeed" "$build/packaged/completions"
add_counts_of "bare.sh" tests/package/bare.sh "$build/$deb"
again() { cp "$build/$deb" "$work/first.deb" && package "$build" && cmp "$work/first.deb" "$build/$deb"; }
expect "packed again it is the same bytes" again
if [ -n "${RIGDEED_TWIN:-}" ]; then
  expect "it is built again in another folder" twin
  expect "the same bytes" cmp "$build/$deb" "$work/twin/made/$deb"
fi
conclude

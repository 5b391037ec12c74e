#!/usr/bin/env bash
# Lines and branches of src/verify and src/crypto that the unit tests reach, by gcov; not run in CI.
# Takes the objects of build/ for everything else. Exceptions that only memory could cause are not counted (gcov's
# branches marked "throw").
#
# usage: tests/coverage.sh [-v]   -v names the branches never taken
set -uo pipefail
cd "$(dirname "$0")/.."
repository=$PWD
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
ninja -C build unit_tests >/dev/null || exit 1
version=$(sed -n -E 's/^project\(rigdeed VERSION ([0-9.]+).*/\1/p' CMakeLists.txt)

compile() {
  g++ -std=c++20 -O0 --coverage -fprofile-abs-path "-DRIGDEED_VERSION=\"$version\"" -Isrc -c "$1" -o "$work/$(tr / - <<<"$1").o"
}
export -f compile
export work version
printf '%s\n' src/verify/*.cpp src/crypto/*.cpp | xargs -P 2 -I{} bash -c 'compile {}' || exit 1
g++ --coverage "$work"/*.o $(find build/tests/CMakeFiles/unit_tests.dir -name '*.o') build/libcore.a \
  $(pkg-config --libs libcrypto exiv2 lcms2 pugixml zlib) -ljpeg -lhpdf -lpthread -o "$work/unit_tests" || exit 1
"$work/unit_tests" -tce="*may differ*" -sf="*/tests/verify/*,*/tests/crypto/*,*/tests/seal/*" | tail -n 3
cd "$work" && gcov -b -c -j ./*.gcda >/dev/null 2>&1
python3 - "$repository" "${1:-}" <<'PY'
import glob, gzip, json, sys
root, verbose = sys.argv[1] + "/src/", sys.argv[2] == "-v"
for folder in ("verify/", "crypto/"):
    lines, branches = {}, {}
    for path in glob.glob("*.gcov.json.gz"):
        for file in json.load(gzip.open(path))["files"]:
            name = file["file"].removeprefix(root)
            if not name.startswith(folder):
                continue
            for line in file["lines"]:
                at = (name, line["line_number"])
                lines[at] = lines.get(at, 0) + line["count"]
                for i, branch in enumerate(line["branches"]):
                    if not branch["throw"]:
                        branches[(*at, i)] = branches.get((*at, i), 0) + branch["count"]
    def share(counts):
        reached = sum(count > 0 for count in counts.values())
        return f"{reached} of {len(counts)} ({100 * reached / max(1, len(counts)):.1f} %)"
    print(f"src/{folder} lines {share(lines)}, branches {share(branches)}")
    if verbose:
        for at in sorted(at for at, count in branches.items() if count == 0):
            print(f"  {at[0]}:{at[1]} branch {at[2]}")
PY

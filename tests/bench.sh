#!/usr/bin/env bash
# How long `rigdeed issue` takes for 240 photos of 12 megapixels, held against the bare work on the photos alone:
# reading, hashing, Exif, decoding, encoding, by the same libraries with as many threads; how long `rigdeed verify`
# takes for a report of 30 MB, held against the bare digest of the file and pdfsig, and the check page in a browser; and how soon the marking page of 300 photos
# shows its first view and the next fitting; and what a survey of a thousand fittings takes. Prints figures, judges nothing.
#
# usage: tests/bench.sh [--smoke] [RUNS]
# The photos are made once, in .cache/bench (about 1 GB). --smoke: 24 photos and two runs, to see that it works.
set -euo pipefail
cd "$(dirname "$0")/.."
fittings=60 runs=5
if [ "${1:-}" = --smoke ]; then fittings=6 runs=2; shift; fi
runs=${1:-$runs}
photos=$((fittings * 4))

tests/dependencies.sh tests
[ -f build/CMakeCache.txt ] || cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build build --target rigdeed >/dev/null

folder=.cache/bench/$photos
mkdir -p "$folder/photos"
flags=$(pkg-config --cflags --libs libjpeg exiv2 libcrypto)
for program in photos floor; do
  # shellcheck disable=SC2086
  g++ -std=c++20 -O3 -pthread "tests/bench/$program.cpp" -o ".cache/bench/$program" $flags
done
echo "photos: $photos"
.cache/bench/photos "$folder/photos" "$photos"
python3 tests/bench/survey.py "$folder" "$fittings"
du -sh --apparent-size "$folder/photos" | cut -f 1

export XDG_CACHE_HOME=$PWD/.cache/bench/store
rm -f "$folder/signer.p12"
export RIGDEED_PASSPHRASE="a test phrase"
build/rigdeed --quiet signer new "$folder/signer.p12" --name "A. Surveyor" >/dev/null
python3 tests/bench/measure.py "$runs" "$folder/report.pdf" -- \
  build/rigdeed --quiet issue "$folder/survey.xml" -o "$folder/report.pdf" --signer "$folder/signer.p12" --issued-on 2026-10-05 --jobs 2 -- \
  .cache/bench/floor "$folder/photos" "$folder/sizes.txt" 2

printf '\nagain, with what the first run kept\n'
python3 tests/bench/again.py "$runs" build/rigdeed "$folder/survey.xml" "$folder/signer.p12"

printf '\nverify\n'
large=.cache/bench/large
if [ ! -f "$large/survey.xml" ]; then rm -rf "$large"; python3 tests/outside/small_survey.py demo/photos "$large" 250 --findings; fi
rm -f "$large/report.pdf"
build/rigdeed --quiet issue "$large/survey.xml" -o "$large/report.pdf" --signer "$folder/signer.p12" --issued-on 2026-10-05
python3 tests/bench/verify.py "$((2 * runs))" build/rigdeed "$large/report.pdf" "$large/photos"

printf '\ncheck page\n'
/usr/bin/python3 tests/bench/check_page.py "$runs" build/rigdeed "$large/report.pdf"

printf '\nmarking page\n'
marking=.cache/bench/marking
if [ ! -f "$marking/survey.xml" ]; then rm -rf "$marking"; python3 tests/mark_survey.py build/rigdeed . "$marking" 300; fi
build/rigdeed --quiet mark "$marking/survey.xml" >/dev/null
/usr/bin/python3 tests/bench/marking.py "$runs" "$marking/marking.html"

printf '\na thousand fittings\n'
python3 tests/bench/large.py build/rigdeed . .cache/bench/thousand

#!/usr/bin/env bash
# Builds rigdeed on Debian 12, issues the demo survey as a sealed report, and verifies it.
# The report stands in out/demo-report.pdf, the certificate to check it with beside it.
set -euo pipefail
cd "$(dirname "$0")/.."
mkdir -p out

step() { printf '\n== %s\n' "$1"; }

step "installing what is missing"
tests/dependencies.sh build

step "building (log in out/build.log)"
{ [ -f build/CMakeCache.txt ] || cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release; } >out/build.log 2>&1 &&
  cmake --build build --target rigdeed >>out/build.log 2>&1 || { tail -n 30 out/build.log; exit 1; }
rigdeed=build/rigdeed

step "a signer, thrown away afterwards"
rm -f out/demo-signer.pem
secret=$(mktemp -d)
trap 'rm -rf "$secret"' EXIT
head -c 24 /dev/urandom | base64 >"$secret/passphrase"
SOURCE_DATE_EPOCH=$(date -u -d 2020-01-01 +%s) "$rigdeed" --quiet signer new "$secret/signer.p12" \
  --name "Ilse Varnhold" --firm "Varnhold Rig Surveys" --years 30 \
  --passphrase-file "$secret/passphrase" --certificate out/demo-signer.pem
fingerprint=$("$rigdeed" --json signer show "$secret/signer.p12" --passphrase-file "$secret/passphrase" |
  sed -E 's/.*"fingerprint": ?"([0-9a-f]{64})".*/\1/;t;d')

step "rigdeed issue demo/survey.xml"
rm -f out/demo-report.pdf
"$rigdeed" issue demo/survey.xml -o out/demo-report.pdf --issued-on 2026-09-18 \
  --signer "$secret/signer.p12" --passphrase-file "$secret/passphrase"

step "rigdeed verify out/demo-report.pdf --fingerprint …"
"$rigdeed" verify out/demo-report.pdf --fingerprint "$fingerprint"

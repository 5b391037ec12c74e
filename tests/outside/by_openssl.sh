#!/usr/bin/env bash
# The lines of docs/check-in-a-minute.md for OpenSSL, as they stand there, over a report, an altered one and one with
# something behind it.
#
# usage: by_openssl.sh REPORT CERTIFICATE
# CERTIFICATE is the signer's, in PEM. Prints what failed, then "N passed, N failed".
set -uo pipefail
source "$(dirname "$0")/../counting.sh"
page=$(dirname "$0")/../../docs/check-in-a-minute.md
report=$1 certificate=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

sed -n '/^```sh$/,/^```$/{/^```/d;p}' "$page" >"$work/lines.sh"
expect "the page has the lines" test "$(wc -l <"$work/lines.sh")" -ge 6
# says FOLDER: what the lines say of the report.pdf there
says() { (cd "$1" && dash "$work/lines.sh" 2>&1); }
mkdir "$work/good" "$work/altered" "$work/longer"
cp "$report" "$work/good/report.pdf"
sed 's/OutputIntents/OutputIntentz/' "$report" >"$work/altered/report.pdf"
{ cat "$report"; echo "%%EOF"; } >"$work/longer/report.pdf"

said=$(says "$work/good")
expect "unchanged" grep -q "Verification successful" <<<"$said"
expect "nothing against it" bash -c '! grep -qi "fail\|not one seal" <<<"$1"' - "$said"
expect "the fingerprint is the signer's" grep -qF "$(openssl x509 -in "$certificate" -noout -fingerprint -sha256)" <<<"$said"
said=$(says "$work/altered")
expect "the altered one is not called unchanged" bash -c '! grep -q "successful" <<<"$1"' - "$said"
expect "it fails" grep -qi "verification fail" <<<"$said"
said=$(says "$work/longer")
expect "something behind the seal is told" grep -q "NOT ONE SEAL OVER THE WHOLE FILE" <<<"$said"
conclude

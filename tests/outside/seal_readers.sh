#!/usr/bin/env bash
# What the signature checkers that Debian ships say about a sealed report, and about the same with a byte altered.
#
# usage: seal_readers.sh REPORT ROOT
# ROOT is the certificate that is trusted, in PEM: the signer's own, or its root. Prints what failed, then "N passed, N
# failed".
set -uo pipefail
source "$(dirname "$0")/../counting.sh"
here=$(dirname "$0")
report=$1 root=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

expect "there is a report" test -s "$report"
sed 's/OutputIntents/OutputIntentz/' "$report" >"$work/altered.pdf"
expect "it can be altered" bash -c '! cmp -s "$@"' - "$report" "$work/altered.pdf"

signatures=$(pdfsig "$report" 2>&1)
expect "pdfsig: one signature" test "$(grep -c '^Signature #' <<<"$signatures")" -eq 1
expect "pdfsig: valid" grep -q "Signature Validation: Signature is Valid\." <<<"$signatures"
expect "pdfsig: the whole file" grep -q "Total document signed" <<<"$signatures"
expect "pdfsig: PAdES" grep -q "Signature Type: ETSI.CAdES.detached" <<<"$signatures"
signatures=$(pdfsig "$work/altered.pdf" 2>&1)
expect "pdfsig: the altered one is not valid" grep -q "Signature Validation: Digest Mismatch\." <<<"$signatures"

signatures=$(mutool sign -v "$report" 2>&1)
expect "mutool sign -v: unchanged" grep -q "The document is unchanged since signing\." <<<"$signatures"
signatures=$(mutool sign -v "$work/altered.pdf" 2>&1)
expect "mutool sign -v: the altered one is not" bash -c '! grep -q "is unchanged since signing" <<<"$1"' - "$signatures"

cms_verify() { openssl cms -verify -cades -binary -inform DER -in "$work/signature" -content "$1" -CAfile "$root" -purpose any -out "$work/verified"; }
expect "the signed parts come out" python3 "$here/signed_parts.py" "$report" "$work"
expect "openssl cms -verify -cades" cms_verify "$work/signed"
sed 's/Flate/Flute/' "$work/signed" >"$work/altered"
expect "openssl cms -verify -cades refuses altered bytes" bash -c '! "$@"' - \
  openssl cms -verify -cades -binary -inform DER -in "$work/signature" -content "$work/altered" -CAfile "$root" -purpose any -out "$work/verified"

conclude

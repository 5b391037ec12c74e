#!/usr/bin/env python3
"""What pyHanko says about a sealed report.

usage: pyhanko_says.py REPORT CERTIFICATE [ROOT [CERTIFICATES [stamped]]]
CERTIFICATE is the signer's, in PEM; trusted is ROOT, or else that certificate itself. CERTIFICATES is how many the report
carries; "stamped" means that it must have a timestamp by that root. Prints "N passed, N failed".
"""
import io
import logging
import sys

from pyhanko.keys import load_cert_from_pemder
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.diff_analysis import ModificationLevel
from pyhanko.sign.fields import MDPPerm
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko.sign.validation.status import SignatureCoverageLevel
from pyhanko_certvalidator import ValidationContext

logging.disable(logging.CRITICAL)
content = open(sys.argv[1], "rb").read()
certificate = load_cert_from_pemder(sys.argv[2])
root = load_cert_from_pemder(sys.argv[3]) if len(sys.argv) > 3 else certificate
certificates = int(sys.argv[4]) if len(sys.argv) > 4 else 1
stamped = "stamped" in sys.argv[5:]
passed = failed = 0


def expect(truth, what):
    global passed, failed
    passed, failed = passed + bool(truth), failed + (not truth)
    if not truth:
        print("FAILED: pyHanko:", what)


def judged(report, *roots):
    reader = PdfFileReader(io.BytesIO(report), strict=True)
    signature = reader.embedded_signatures[0]
    return signature, validate_pdf_signature(signature, ValidationContext(trust_roots=roots, allow_fetching=False))


try:
    signature, status = judged(content, root)
    reader = PdfFileReader(io.BytesIO(content), strict=True)
    expect(len(reader.embedded_signatures) == 1, "one signature")
    expect(reader.total_revisions == 1, "one revision")
    expect(status.intact, "intact")
    expect(status.valid, "valid")
    expect(status.trusted, "trusted, through the root given")
    expect(status.bottom_line, "the bottom line is yes")
    expect(status.coverage == SignatureCoverageLevel.ENTIRE_FILE, f"the whole file is covered: {status.coverage}")
    expect(status.modification_level == ModificationLevel.NONE, f"nothing was modified: {status.modification_level}")
    expect(status.docmdp_ok, "certification is kept")
    expect(signature.docmdp_level == MDPPerm.NO_CHANGES, f"certification allows no changes: {signature.docmdp_level}")
    expect(reader.root["/Perms"].raw_get("/DocMDP") == signature.sig_field.raw_get("/V"), "the signature is the certification")
    expect(status.md_algorithm == "sha256", f"SHA-256: {status.md_algorithm}")
    expect(signature.sig_object.get("/SubFilter") == "/ETSI.CAdES.detached", "PAdES")
    expect(signature.self_reported_timestamp is not None, "a time of signing in the signature dictionary")
    expect(status.signing_cert.dump() == certificate.dump(), "signed with the certificate given")

    carried = list(signature.signed_data["certificates"])
    expect(len(carried) == certificates, f"{certificates} certificates carried: {len(carried)}")
    named = signature.signer_info["signed_attrs"][[one["type"].native for one in signature.signer_info["signed_attrs"]].index("signing_certificate_v2")]["values"][0]["certs"]
    expect(sorted(one["cert_hash"].native for one in named) == sorted(one.chosen.sha256 for one in carried), "each of them named in signing-certificate-v2")
    stamp = status.timestamp_validity
    expect((stamp is not None) == stamped, f"a timestamp: {stamp}")
    if stamped:
        expect(stamp.intact and stamp.valid and stamp.trusted, f"the timestamp is intact, valid and trusted: {stamp}")

    attributes = [one["type"].native for one in signature.signer_info["signed_attrs"]]
    expect(sorted(attributes) == ["content_type", "message_digest", "signing_certificate_v2"], f"signed attributes of PAdES B-B: {attributes}")

    _, untrusted = judged(content)
    expect(untrusted.intact and untrusted.valid and not untrusted.trusted, "not trusted without the certificate")
except Exception as error:  # whatever it is, the report was not accepted
    expect(False, f"{type(error).__name__}: {error}")

try:
    _, altered = judged(content.replace(b"/Page", b"/Pagf", 1), root)
    accepted = altered.bottom_line
except Exception:
    accepted = False
expect(not accepted, "an altered report is refused")

try:
    reader = PdfFileReader(io.BytesIO(content + b"\n% one more line\n"), strict=True)
    accepted = validate_pdf_signature(reader.embedded_signatures[0], ValidationContext(trust_roots=[root])).coverage == SignatureCoverageLevel.ENTIRE_FILE
except Exception:
    accepted = False
expect(not accepted, "a report with something added is not covered whole")

print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)

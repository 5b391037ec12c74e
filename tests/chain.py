#!/usr/bin/env python3
"""Signers with a chain of certificates: what is sealed with them, what verify makes of it, and attacks on the chain.

usage: chain.py PROGRAM REPOSITORY
Needs openssl. Prints "N passed, N failed".
"""
import http.server, json, os, re, shutil, subprocess, sys, tempfile, time

from authority import AUTHORITY, LEAF, Authorities, serve
from keep import keep

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
survey = repository + "/fixtures/complete/survey.xml"
work = tempfile.mkdtemp(prefix="rigdeed-chain-")
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words):
    said = subprocess.run([program, *words], capture_output=True, text=True, timeout=120, env=environment)
    keep(program, words, said.returncode)
    return said


made = Authorities(work)
made.certificate("root", extensions=AUTHORITY, subject="/CN=Harbour Root")
made.certificate("coast", "root", AUTHORITY, subject="/CN=Coast Authority")
made.certificate("quay", "coast", AUTHORITY, subject="/CN=Quay Authority", key="p256")
made.certificate("stray", extensions=AUTHORITY, subject="/CN=Stray Root")
made.certificate("ada", "quay", key="rsa:3072", subject="/O=Harbour/CN=Ada Sorrel")
made.certificate("bo", "quay", key="p256", subject="/CN=Bo Teak")
made.clock("clock", "root", subject="/CN=Harbour Clock")
CHAIN = ("quay", "coast")
environment = dict(os.environ, RIGDEED_PASSPHRASE="a test phrase", SOURCE_DATE_EPOCH=str(int(time.time())))


def issue(name, signer, *more):
    report = f"{work}/{name}.pdf"
    if os.path.exists(report):
        os.remove(report)
    return report, run("issue", survey, "-o", report, "--signer", signer, *more)


def told(report, *more):
    said = run("verify", report, "--json", *more)
    return said.returncode, json.loads(said.stdout)[0]


# What is in a signer file, and what is not let in.
whole = made.signer_file("ada", "a test phrase", "root", *CHAIN)
said = run("signer", "show", whole)
expect(said.returncode == 0 and 'by          "Quay Authority", by "Coast Authority"\n' in said.stdout, "signer show names the chain: " + said.stdout + said.stderr)
shown = json.loads(run("signer", "show", whole, "--json").stdout)
expect([one["name"] for one in shown["chain"]] == ["Quay Authority", "Coast Authority"] and len(shown["chain"][0]["fingerprint"]) == 64, f"and in JSON: {shown}")
for others, wrong in (("stray", *CHAIN), "Stray Root"), (("coast",), "Coast Authority"), (("bo", *CHAIN), "Bo Teak"):
    bad = made.signer_file("ada", "a test phrase", *others, file="bad.p12")
    report, said = issue("bad", bad)
    expect(said.returncode == 2 and f'that is not of the signer\'s chain: "{wrong}"' in said.stderr and "hint: export it again" in said.stderr and not os.path.exists(report), f"with {others}: refused: {said.stderr}")

# With its chain a report leads to the root alone; without it, only with those between at hand.
report, said = issue("whole", whole)
expect(said.returncode == 0 and said.stderr.count("rigdeed: ") == 1 and "sealed by Ada Sorrel" in said.stderr, "issued with a chain: " + said.stderr)
code, verdict = told(report, "--trust", work + "/root.pem")
expect(code == 0 and verdict["signer"]["vouched-for"] and [one["name"] for one in verdict["signer"]["chain"]] == ["Quay Authority", "Coast Authority"], f"the root vouches: {verdict}")
said = run("verify", report, "--trust", work + "/root.pem")
expect('the signer\'s certificate is by "Quay Authority", by "Coast Authority", for which an authority named vouches' in said.stdout, "and verify says so: " + said.stdout)
said = run("verify", report, "--fingerprint", shown["fingerprint"])
expect(said.returncode == 0 and "; no authority named with --trust vouches for it" in said.stdout, "by fingerprint nobody vouches for the chain: " + said.stdout)
code, verdict = told(report, "--trust", work + "/stray.pem")
expect(code == 5 and verdict["intact"] and not verdict["signer"]["vouched-for"], "another root does not vouch")
expect(told(report, "--trust", work + "/coast.pem")[0] == 5, "what is between is no root")
alone, said = issue("alone", made.signer_file("ada", "a test phrase", file="alone.p12"))
expect(told(alone, "--trust", work + "/root.pem")[0] == 5, "without its chain the root alone does not vouch")
open(work + "/all.pem", "w").write("".join(open(f"{work}/{one}.pem").read() for one in ("root", *CHAIN)))
expect(told(alone, "--trust", work + "/all.pem")[0] == 0, "with those between at hand it does")
open(work + "/ada-all.pem", "w").write("".join(open(f"{work}/{one}").read() for one in ("root.pem", "coast.pem", "ada.key", "ada.pem", "quay.pem")))
pem, said = issue("pem", work + "/ada-all.pem")
expect(said.returncode == 0 and open(pem, "rb").read() == open(report, "rb").read(), "PEM and PKCS#12 of the same chain seal the same: " + said.stderr)
for date, words in ("2001-01-01", "not valid yet"), ("2046-01-01", "had expired"):
    other, said = issue("dated", whole, "--issued-on", date, "--with-gaps")
    said = run("verify", other, "--trust", work + "/root.pem")
    expect(said.returncode == 5 and words in said.stdout, f"sealed {date}: {said.stdout}")

# What an authority took back: before the seal, after it, of a certificate between; by others than itself it takes nothing.
now = int(time.time())
made.certificate("false-root", extensions=AUTHORITY, subject="/CN=Harbour Root")
made.certificate("false-quay", extensions=AUTHORITY, subject="/CN=Quay Authority")
for revoked, words in ({"ada": now - 86400}, "the signer's certificate was revoked on"), ({"ada": now + 3600}, "and that the seal is older only the signer's clock says"), ({"bo": now - 86400}, ""), ({}, ""):
    listed = made.revocation_list("quay", revoked)
    said = run("verify", report, "--trust", work + "/root.pem", "--crl", listed)
    expect(said.returncode == (5 if words else 0) and words in said.stdout, f"revoked {revoked}: {said.returncode} {said.stdout}{said.stderr}")
made.openssl("crl", "-in", made.revocation_list("quay", {"ada": now - 86400}), "-outform", "DER", "-out", "list.der")
expect(told(report, "--trust", work + "/root.pem", "--crl", work + "/list.der")[0] == 5, "the same list in DER")
several = "".join(open(made.revocation_list(*one)).read() for one in (("quay", {}), ("coast", {"quay": now - 86400})))
open(work + "/several.crl", "w").write(several)
said = run("verify", report, "--trust", work + "/root.pem", "--crl", work + "/several.crl")
expect(said.returncode == 5 and 'the certificate of "Quay Authority" was revoked on' in said.stdout, "one between was revoked: " + said.stdout)
said = run("verify", report, "--trust", work + "/root.pem", "--crl", made.revocation_list("quay", {}, next=now - 60))
expect(said.returncode == 0 and 'remark: the list of revoked certificates by "Quay Authority" is over since' in said.stderr, "a list that is over is told: " + said.stderr)
said = run("verify", report, "--trust", work + "/root.pem", "--crl", made.revocation_list("false-root", {}))
expect(said.returncode == 2 and 'by "Harbour Root" is not signed by it' in said.stderr and said.stdout == "", "a list in the root's name by another key: 2: " + said.stderr)
for by in "false-quay", "stray", "root":
    said = run("verify", report, "--trust", work + "/root.pem", "--crl", made.revocation_list(by, {}))
    expect(said.returncode == 5 and re.search("lists? of revoked certificates", said.stdout), f"a list by {by} clears nobody: {said.returncode} {said.stdout}{said.stderr}")
for file, words in (work + "/root.pem", "holds no list"), (work + "/ada.key", "holds no list"), (work + "/nowhere", "cannot open"):
    said = run("verify", report, "--trust", work + "/root.pem", "--crl", file)
    expect(said.returncode == 2 and words in said.stderr, f"--crl {file}: 2: {said.stderr}")
said = run("verify", report, "--crl", listed)
expect(said.returncode == 2 and "--crl without --trust" in said.stderr, "a list without its authority: " + said.stderr)

# The chain counts at the time of a timestamp that is vouched for. A signature too large is not sent to be stamped.
asked = []


class Clock(http.server.BaseHTTPRequestHandler):
    def do_POST(self):
        asked.append(self.path)
        body = made.answer(self.rfile.read(int(self.headers["Content-Length"])))
        self.send_response(200)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *words):
        pass


address = serve(Clock)
stamped, said = issue("stamped", whole, "--issued-on", "2001-01-01", "--with-gaps", "--timestamp", address)
expect("sealed by Ada Sorrel" in said.stderr and "timestamp " in said.stderr and "preview" not in said.stderr, "issue says who sealed and who stamped: " + said.stderr)
code, verdict = told(stamped, "--trust", work + "/root.pem")
expect(code == 0 and verdict["timestamp"]["vouched-for"] and verdict["signer"]["valid-then"], f"the chain counts at the time of the timestamp: {verdict}")
expect(told(stamped, "--trust", work + "/root.pem", "--crl", made.revocation_list("quay", {"ada": now + 3600}))[0] == 0, "what was revoked after a timestamp was good when it sealed")
expect(told(stamped, "--trust", work + "/root.pem", "--crl", made.revocation_list("quay", {"ada": now - 3600}))[0] == 5, "before it, it was not")

# What stamped may have been taken back as well: what came before holds only where the reason leaves its clock alone.
dated, said = issue("dated-today", whole, "--timestamp", address)
for since, reason, words in (now - 3600, "superseded", "revoked on"), (now + 3600, "", "revoked on"), (now + 3600, "keyCompromise", "revoked on"), (now + 3600, "superseded", ""), (None, "", ""):
    lists = open(made.revocation_list("quay", {})).read() + open(made.revocation_list("root", {"clock": since} if since else {}, reason=reason)).read()
    open(work + "/clocks.crl", "w").write(lists)
    code, verdict = told(dated, "--trust", work + "/root.pem", "--crl", work + "/clocks.crl")
    told_so = run("verify", dated, "--trust", work + "/root.pem", "--crl", work + "/clocks.crl").stdout
    expect(code == 0 and verdict["timestamp"]["vouched-for"] == (words == "") and ("its authority's certificate was revoked on" in told_so) == (words != ""), f"the clock revoked {since} {reason}: {code} {told_so}")
    expect(told(stamped, "--trust", work + "/root.pem", "--crl", work + "/clocks.crl")[0] == (5 if words else 0), f"and what only its stamp saves falls with it: {since} {reason}")

filler = "nsComment=" + "x" * 8000 + "\n"
made.certificate("wide", "root", AUTHORITY + filler, subject="/CN=Wide Authority")
made.certificate("eve", "wide", LEAF + filler, subject="/CN=Eve Wide")
asked.clear()
for more in (), ("--timestamp", address):
    large, said = issue("large", made.signer_file("eve", "a test phrase", "wide"), "--on-behalf", *more)
    expect(said.returncode == 2 and "bytes; the report has room for 16384" in said.stderr and "hint: export the signer with a shorter chain" in said.stderr and not os.path.exists(large), f"too large for the slot: {said.stderr}")
expect(asked == [], "no timestamp is asked for it")


# Attacks on the certificates of the sealed file: the CMS is written anew, whole and in DER, into the same room.
def parts(der):
    found = []
    while der.rstrip(b"\0"):  # after a CMS the rest of its room is zeros
        head, size = 2, der[1]
        if size & 0x80:
            head, size = 2 + (size & 0x7F), int.from_bytes(der[2:2 + (size & 0x7F)], "big")
        found.append((der[0], der[head:head + size], der[:head + size]))
        der = der[head + size:]
    return found


def element(tag, content):
    size = len(content)
    length = bytes([size]) if size < 128 else bytes([0x80 | (size.bit_length() + 7) // 8]) + size.to_bytes((size.bit_length() + 7) // 8, "big")
    return bytes([tag]) + length + content


good = open(report, "rb").read()
begin = good.index(b"/Contents <") + len(b"/Contents <")
room = good.index(b">", begin) - begin
oid, wrapped = parts(parts(bytes.fromhex(good[begin:begin + room].decode()))[0][1])
fields = parts(parts(wrapped[1])[0][1])
certificates = [one[2] for one in parts(fields[3][1])]


def with_certificates(*certificates):
    data = element(0x30, b"".join(one[2] for one in fields[:3]) + element(0xA0, b"".join(certificates)) + fields[4][2])
    cms = element(0x30, oid[2] + element(0xA0, data))
    changed = good[:begin] + cms.hex().encode().ljust(room, b"0") + good[begin + room:]
    open(work + "/attack.pdf", "wb").write(changed)
    return run("verify", work + "/attack.pdf", "--fingerprint", shown["fingerprint"]), changed


def der(name):
    return made.openssl("x509", "-in", f"{name}.pem", "-outform", "DER")


said, changed = with_certificates(*certificates)
expect(said.returncode == 0 and changed == good and len(certificates) == 3, "unchanged it is the same file")
ada, quay, coast = der("ada"), der("quay"), der("coast")
made.openssl("x509", "-req", "-in", "coast.csr", "-CA", "root.pem", "-CAkey", "root.key", "-CAcreateserial", "-out", "coast-again.pem", "-days", "300", "-extfile", "coast.ext")
attacks = {
    "the highest removed": [ada, quay],
    "one in the middle removed": [ada, coast],
    "all but the signer's removed": [ada],
    "the signer's removed": [quay, coast],
    "all removed": [],
    "the root added": [ada, quay, coast, der("root")],
    "a stray one added": [ada, quay, coast, der("stray")],
    "one doubled": [ada, quay, coast, coast],
    "swapped for one of the same name and key": [ada, quay, der("coast-again")],
    "swapped for another's": [der("bo"), quay, coast],
}
for what, chain in attacks.items():
    said, _ = with_certificates(*sorted(chain))
    expect(said.returncode == 4 and "NOT AS ISSUED" in said.stdout, f"{what}: exit {said.returncode} {said.stdout}")
said, _ = with_certificates(*reversed(certificates))
expect(said.returncode == 4, f"reordered: exit {said.returncode}")
for at in range(begin, begin + 2 * 5200, 331):
    changed = good[:at] + (b"1" if good[at:at + 1] == b"0" else b"0") + good[at + 1:]
    open(work + "/attack.pdf", "wb").write(changed)
    expect(run("verify", work + "/attack.pdf", "--fingerprint", shown["fingerprint"]).returncode == 4, f"digit {at - begin} of the signature changed")

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)

#!/usr/bin/env python3
"""Timestamps: a local authority, good and bad answers of it, and what verify makes of them.

usage: timestamp.py PROGRAM REPOSITORY
Needs openssl and pdfsig. Prints "N passed, N failed".
"""
import datetime, http.server, json, os, shutil, socket, subprocess, sys, tempfile, time

from authority import AUTHORITY, Authorities, serve
from keep import keep

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
survey = repository + "/fixtures/complete/survey.xml"
work = tempfile.mkdtemp(prefix="rigdeed-timestamp-")
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, **more):
    more.setdefault("env", dict(os.environ, RIGDEED_PASSPHRASE="a test phrase"))
    said = subprocess.run([program, *words], capture_output=True, text=True, timeout=120, **more)
    keep(program, words, said.returncode)
    return said


made = Authorities(work)
openssl = made.openssl
made.certificate("ca", extensions=AUTHORITY, subject="/CN=Harbour Authority")
made.clock("Harbour Clock", "ca", days=30)
made.clock("Stray Clock", days=30)
made.clock("Loose Clock", "ca", "timeStamping")
made.clock("Busy Clock", "ca", "critical,timeStamping,emailProtection")
made.clock("No Clock", "ca", None)
made.clock("Brief Clock", "ca")
made.certificate("Ada Vouched", "ca")
KINDS = {"rsa:2048", "rsa:3072", "rsa:4096", "p256", "p384"}
OTHER_KINDS = {"rsa:1024", "rsa:5120", "p521"}
for kind in KINDS | OTHER_KINDS:
    made.clock("Clock " + kind, "ca", key=kind)


def answer(query, clock="Harbour Clock", **more):
    return made.answer(query, clock, **more)


def other_imprint(query):
    at = query.index(b"\x04\x20") + 2  # the digest: an OCTET STRING of 32 bytes
    return query[:at] + bytes([query[at] ^ 1]) + query[at + 1:]


def other_nonce(query):
    at = query.rindex(b"\x02\x08") + 9
    return query[:at] + bytes([query[at] ^ 1]) + query[at + 1:]


def without_purpose(query, name, *more):
    """OpenSSL refuses to stamp with such a certificate: its reply is signed anew, as by a careless authority."""
    reply = answer(query)
    token = openssl("ts", "-reply", "-config", "now.cnf", "-in", "reply", "-token_out")
    open(work + "/token", "wb").write(token)
    info = openssl("cms", "-verify", "-noverify", "-inform", "DER", "-in", "token", "-outform", "DER")
    open(work + "/info", "wb").write(info)
    openssl("cms", "-sign", "-binary", "-nodetach", "-cades", "-econtent_type", "1.2.840.113549.1.9.16.1.4", "-in", "info", "-outform", "DER", "-out", "forged", "-signer", f"{name}.pem", "-inkey", f"{name}.key", "-md", "sha256", "-nosmimecap", *more)
    return wrapped(bytes.fromhex("3003020100") + open(work + "/forged", "rb").read())


def flipped(reply):
    return reply[:-1] + bytes([reply[-1] ^ 1])


def wrapped(content):
    return b"\x30\x82" + len(content).to_bytes(2, "big") + content


def tlv(tag, content):
    return bytes([tag, len(content)]) + content


def not_granted(failure, text=b""):
    """PKIStatusInfo of a rejection (RFC 3161, 2.4.2)."""
    return tlv(0x30, tlv(0x30, b"\x02\x01\x02" + tlv(0x30, tlv(0x0C, text)) + tlv(0x03, failure)))


ways = {
    "/brief": lambda query: answer(query, clock="Brief Clock"),
    "/good": lambda query: answer(query),
    "/sha512": lambda query: answer(query, digest="sha512", identity="sha512"),
    "/with-chain": lambda query: answer(query, chain="ca"),
    "/stray": lambda query: answer(query, clock="Stray Clock"),
    "/modified": lambda query: answer(query).replace(bytes.fromhex("3003020100"), bytes.fromhex("3003020101"), 1),
    "/sha1-identity": lambda query: answer(query, identity="sha1"),
    "/imprint": lambda query: answer(other_imprint(query)),
    "/nonce": lambda query: answer(other_nonce(query)),
    "/refused": lambda query: not_granted(b"\x07\x80", b"ask \x1b[1mlater"),
    "/no-clock": lambda query: not_granted(b"\x01\x00\x02"),
    "/loose": lambda query: without_purpose(query, "Loose Clock"),
    "/busy": lambda query: without_purpose(query, "Busy Clock"),
    "/none": lambda query: without_purpose(query, "No Clock"),
    "/resigned": lambda query: without_purpose(query, "Harbour Clock"),
    "/pss": lambda query: without_purpose(query, "Harbour Clock", "-keyopt", "rsa_padding_mode:pss"),
    "/changed": lambda query: flipped(answer(query)),
    "/rubbish": lambda query: b"<html>no</html>",
    "/empty": lambda query: b"",
    "/large": lambda query: b"0" * 70000,
}
for kind in KINDS | OTHER_KINDS:
    for digest in ("sha1", "sha256", "sha384", "sha512"):
        ways[f"/{kind}/{digest}"] = lambda query, kind=kind, digest=digest: answer(query, clock="Clock " + kind, digest=digest)
asked = []


class Authority(http.server.BaseHTTPRequestHandler):
    def do_POST(self):
        query = self.rfile.read(int(self.headers["Content-Length"]))
        asked.append((self.path, self.headers["Content-Type"]))
        if self.path == "/slow":
            return time.sleep(14)
        if self.path not in ways:
            return self.send_error(404)
        body = ways[self.path](query)
        self.send_response(200)
        self.send_header("Content-Type", "application/timestamp-reply")
        if self.path != "/sha512":  # without a length it ends with the connection
            self.send_header("Content-Length", str(len(body) + (self.path == "/empty")))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *words):
        pass


base = serve(Authority)
closed = socket.socket()
closed.bind(("127.0.0.1", 0))  # bound and not listening: nobody answers there
nobody = f"http://127.0.0.1:{closed.getsockname()[1]}/"

run("signer", "new", work + "/signer.p12", "--name", "Ada Sorrel")
shown = json.loads(run("signer", "show", work + "/signer.p12", "--json").stdout)
reports = 0


def issue(url, *more, signer=work + "/signer.p12"):
    global reports
    reports += 1
    report = f"{work}/report-{reports}.pdf"
    return report, run("issue", survey, "-o", report, "--on-behalf", "--signer", signer, "--timestamp", url, *more)


def verify(report, *more):
    return run("verify", report, "--fingerprint", shown["fingerprint"], *more)


def token_at(pdf):
    """Where its hex digits begin and end."""
    at = pdf.index(b"060b2a864886f70d010910020e")  # id-aa-timeStampToken, then SET, then the token
    begin = at + 26 + 8
    return begin, begin + 2 * (int(pdf[begin + 4:begin + 8], 16) + 4)


def openssl_says(report):
    """Of the token in a report, over its RSA-3072 signature."""
    pdf = open(report, "rb").read()
    begin, end = token_at(pdf)
    open(work + "/in-report", "wb").write(bytes.fromhex(pdf[begin:end].decode()))
    signature = pdf.index(b"060b2a864886f70d010910020e") - 16  # before the heads of [1] and of the attribute
    open(work + "/signature", "wb").write(bytes.fromhex(pdf[signature - 768:signature].decode()))
    said = subprocess.run(["openssl", "ts", "-verify", "-token_in", "-in", "in-report", "-data", "signature", "-CAfile", "ca.pem"], cwd=work, capture_output=True, text=True)
    return said.stdout + said.stderr


report, said = issue(base + "/good")
expect(said.returncode == 0 and os.path.exists(report), "a timestamped report is issued: " + said.stderr)
expect(asked == [("/good", "application/timestamp-query")], f"asked once, and for a timestamp: {asked}")
said = verify(report)
now = datetime.datetime.now(datetime.timezone.utc)
expect(said.returncode == 0 and 'timestamp: sealed before' in said.stdout and f"{now.day} {now:%B %Y}" in said.stdout and 'by the word of "Harbour Clock"; no authority named with --trust-time vouches for it' in said.stdout, "verify names time and authority: " + said.stdout)
page = " ".join(subprocess.run(["pdftotext", "-layout", report, "-"], capture_output=True, text=True).stdout.split("How to check this report")[-1].split())
expect(all(words in page for words in ("--trust-time for a timestamp", "With --trust and the root certificate of an authority", "a timestamp on the seal")), "the report's own page says how chain and timestamp are checked: " + page)
stamp = json.loads(verify(report, "--json").stdout)[0]["timestamp"]
expect(abs(stamp["at"] - time.time()) < 60 and stamp["authority"] == "Harbour Clock" and stamp["organisation"] == "Harbour" and stamp["vouched-for"] is False, f"the same in JSON: {stamp}")
said = subprocess.run(["pdfsig", report], capture_output=True, text=True).stdout
expect("Signature is Valid." in said and "Total document signed" in said, "pdfsig accepts it: " + said)

for way in ("/sha512", "/sha1-identity", "/resigned", "/with-chain", "/modified"):
    other, said = issue(base + way)
    expect(said.returncode == 0 and verify(other).returncode == 0, f"{way}: accepted: {said.stderr}")


def refused(way, words):
    other, said = issue(base + way)
    expect(said.returncode == 2 and words in said.stderr and not os.path.exists(other), f"{way}: exit 2, {words}, nothing written: {said.returncode} {said.stderr}")


for way, words in {"/imprint": "for another signature", "/nonce": "its nonce is not ours", "/refused": 'it rejects the request; "ask \\x1b[1mlater"; it does not know the algorithm', "/no-clock": "its clock is not available", "/loose": "not for timestamps alone", "/busy": "not for timestamps alone", "/none": "not for timestamps alone", "/changed": "does not fit its certificate's key", "/rubbish": "not a timestamp response", "/empty": "cut short", "/large": "larger than 64 kB", "/unknown": "status 404"}.items():
    refused(way, words)
for kind in sorted(KINDS):
    for digest in ("sha256", "sha384", "sha512"):
        other, said = issue(base + f"/{kind}/{digest}")
        told = json.loads(run("verify", other, "--json", "--trust-time", work + "/ca.pem").stdout)[0] if said.returncode == 0 else {}
        expect(told.get("intact") and told["timestamp"]["vouched-for"], f"an authority with {kind} and {digest}: {said.stderr} {told}")
        verified = openssl_says(other)
        expect("Verification: OK" in verified, f"openssl ts -verify, {kind} and {digest}: {verified}")
    refused(f"/{kind}/sha1", "signed in a way we do not verify: it must be RSA of 2048 to 4096 bits")
for way in ["/pss", *(f"/{kind}/sha256" for kind in sorted(OTHER_KINDS))]:
    refused(way, "signed in a way we do not verify: it must be RSA of 2048 to 4096 bits")

started = time.monotonic()
other, said = issue(base + "/slow")
expect(said.returncode == 2 and "within 10 seconds" in said.stderr and not os.path.exists(other), "a slow server: " + said.stderr)
expect(9 < time.monotonic() - started < 14, "it is given up after ten seconds")
other, said = issue(nobody)
expect(said.returncode == 2 and "cannot be reached" in said.stderr and "--timestamp-optional" in said.stderr and not os.path.exists(other), "nobody at the port: " + said.stderr)
other, said = issue(nobody, "--timestamp-optional")
expect(said.returncode == 0 and "without a timestamp: " in said.stderr, "--timestamp-optional goes on and says so: " + said.stderr)
said = verify(other, "--json")
expect(said.returncode == 0 and json.loads(said.stdout)[0]["timestamp"] is None, "that report has no timestamp")
for url in ("https://127.0.0.1/", "127.0.0.1", "http://", "http://a b/", "http://a:b/", "http://u@a/", "http://a:/"):
    other, said = issue(url, "--timestamp-optional")
    expect(said.returncode == 2 and "http://host/path" in said.stderr and not os.path.exists(other), f"{url} is refused: {said.stderr}")
said = run("issue", survey, "-o", work + "/none.pdf", "--signer", work + "/signer.p12", "--timestamp-optional")
expect(said.returncode == 2 and "--timestamp http://" in said.stderr, "--timestamp-optional alone: " + said.stderr)
said = run("issue", survey, "-o", work + "/none.pdf", "--preview", "--timestamp", base + "/good")
expect(said.returncode == 2 and "preview" in said.stderr, "a preview has no timestamp: " + said.stderr)

# Bytes of a token changed.
good = open(report, "rb").read()
begin, end = token_at(good)
expect(good[begin:begin + 4] == b"3082" and end - begin > 2000, "the token is found")
for at in range(begin, end, 97):
    changed = good[:at] + (b"1" if good[at:at + 1] == b"0" else b"0") + good[at + 1:]
    open(work + "/changed.pdf", "wb").write(changed)
    said = verify(work + "/changed.pdf")
    expect(said.returncode == 4, f"digit {at - begin} of the token changed: exit {said.returncode}")

# Authorities that vouch, at the time of the timestamp.
openssl("pkcs12", "-export", "-inkey", "Ada Vouched.key", "-in", "Ada Vouched.pem", "-out", "vouched.p12", "-passout", "pass:a test phrase")
old, said = issue(base + "/good", "--issued-on", "2001-01-01", "--with-gaps", signer=work + "/vouched.p12")
said = run("verify", old, "--trust", work + "/ca.pem")
expect(said.returncode == 0 and "for which an authority named vouches" in said.stdout, "the certificate counts at the time of the timestamp: " + said.stdout)
bare = work + "/bare.pdf"
run("issue", survey, "-o", bare, "--issued-on", "2001-01-01", "--with-gaps", "--on-behalf", "--signer", work + "/vouched.p12")
expect(run("verify", bare, "--trust", work + "/ca.pem").returncode == 5, "without one, at the time claimed")

stray, said = issue(base + "/stray", "--issued-on", "2001-01-01", "--with-gaps", signer=work + "/vouched.p12")
said = run("verify", stray, "--trust", work + "/ca.pem", "--json")
told = json.loads(said.stdout)[0]
expect(said.returncode == 5 and told["timestamp"]["authority"] == "Stray Clock" and told["timestamp"]["vouched-for"] is False and not told["signer"]["valid-then"], f"a timestamp that nobody vouches for moves no time: {said.stdout}")

# A certificate that expires soon after.
days, left = 365, 15
past = str(int(time.time()) - days * 86400 + left)
phrase = dict(os.environ, RIGDEED_PASSPHRASE="a test phrase", SOURCE_DATE_EPOCH=past)
said = run("signer", "new", work + "/short.p12", "--name", "Ada Brief", "--years", "1", "--json", env=phrase)
brief = json.loads(said.stdout)["fingerprint"]
made.shorten("Brief Clock", "ca", int(past) + days * 86400)
short, said = issue(base + "/good", signer=work + "/short.p12")
by_brief, said = issue(base + "/brief", signer=work + "/short.p12")
expect(said.returncode == 0, "stamped shortly before the authority's certificate expires: " + said.stderr)
expect(said.returncode == 0, "issued shortly before the certificate expires: " + said.stderr)
time.sleep(max(0.0, int(past) + days * 86400 + 2 - time.time()))
said = run("verify", short, "--fingerprint", brief, "--trust-time", work + "/ca.pem")
expect(said.returncode == 0 and f"the signer's certificate expired on {now.day} {now:%B %Y}" in said.stdout and "; the seal is still good: the timestamp shows that it is older" in said.stdout and said.stdout.count("remark") == 1, "expired since, stamped before by an authority named: good, and says why: " + said.stdout)
said = run("verify", short, "--fingerprint", brief)
expect(said.returncode == 0 and "that the seal is older only the signer's clock says, and a timestamp that is not vouched for" in said.stdout, "stamped by an authority that nobody named: a remark: " + said.stdout)
said = run("verify", by_brief, "--fingerprint", brief, "--trust-time", work + "/ca.pem")
expect(said.returncode == 0 and "the seal is still good" in said.stdout and "remark: the timestamp authority's own certificate expired on" in said.stdout, "the authority's certificate expired, too: a remark: " + said.stdout)
late, said = issue(base + "/good", signer=work + "/short.p12")
said = run("verify", late, "--fingerprint", brief, "--trust-time", work + "/ca.pem")
expect("certificate was not valid" in said.stdout and "still good" not in said.stdout, "stamped after it expired: a remark: " + said.stdout)

# The authority is asked once, for the bytes that are written.
whole = work + "/whole.pdf"
survey = repository + "/demo/survey.xml"
run("issue", survey, "-o", whole, "--preview")
limit = os.path.getsize(whole) - 300_000
asked.clear()
mailed, said = issue(base + "/good", "--mail-size", f"{limit // 1000}kB")
expect(said.returncode == 0 and asked == [("/good", "application/timestamp-query")] and os.path.getsize(mailed) <= limit, f"several sizes tried, one timestamp: {asked} {said.stderr}")
expect("printed with fewer pixels" in said.stderr and os.path.getsize(mailed) >= 0.97 * limit, f"as large as may be: {os.path.getsize(mailed)} of {limit}: {said.stderr}")
expect(verify(mailed).returncode == 0, "the smaller report is as issued, timestamp and all")

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)

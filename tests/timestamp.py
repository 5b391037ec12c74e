#!/usr/bin/env python3
"""Timestamps: a local authority, good and bad answers of it, and what verify makes of them.

usage: timestamp.py PROGRAM REPOSITORY
Needs openssl and pdfsig. Prints "N passed, N failed".
"""
import datetime, http.server, json, os, shutil, socket, subprocess, sys, tempfile, threading, time

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
    return subprocess.run([program, *words], capture_output=True, text=True, timeout=120, **more)


def openssl(*words):
    return subprocess.run(["openssl", *words], cwd=work, check=True, capture_output=True).stdout


def certificate(name, usage):
    """A certificate by the harbour authority, with this extended key usage, if any."""
    extensions = "basicConstraints=critical,CA:FALSE\nkeyUsage=critical,digitalSignature\nsubjectKeyIdentifier=hash\nauthorityKeyIdentifier=keyid\n"
    open(f"{work}/{name}.ext", "w").write(extensions + (f"extendedKeyUsage={usage}\n" if usage else ""))
    openssl("req", "-newkey", "rsa:2048", "-nodes", "-keyout", f"{name}.key", "-out", f"{name}.csr", "-subj", f"/O=Harbour/CN={name}")
    openssl("x509", "-req", "-in", f"{name}.csr", "-CA", "ca.pem", "-CAkey", "ca.key", "-CAcreateserial", "-out", f"{name}.pem", "-days", "30", "-extfile", f"{name}.ext")


openssl("req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "ca.key", "-out", "ca.pem", "-days", "3650", "-subj", "/CN=Harbour Authority", "-addext", "keyUsage=critical,keyCertSign,cRLSign", "-addext", "basicConstraints=critical,CA:TRUE")
certificate("Harbour Clock", "critical,timeStamping")
openssl("req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "Stray Clock.key", "-out", "Stray Clock.pem", "-days", "30", "-subj", "/CN=Stray Clock", "-addext", "keyUsage=critical,digitalSignature", "-addext", "extendedKeyUsage=critical,timeStamping")
certificate("Loose Clock", "timeStamping")
certificate("Busy Clock", "critical,timeStamping,emailProtection")
certificate("No Clock", None)
certificate("Ada Vouched", None)
open(work + "/serial", "w").write("01\n")
open(work + "/tsa.cnf", "w").write("[tsa]\ndefault_tsa=t\n[t]\nserial=serial\ndefault_policy=1.2.3.4.1\ndigests=sha256,sha384,sha512\nsigner_digest=sha256\ness_cert_id_chain=no\ntsa_name=no\n")


def answer(query, clock="Harbour Clock", digest="sha256", identity="sha256", chain="ca.pem"):
    with open(work + "/query", "wb") as file:
        file.write(query)
    config = open(work + "/tsa.cnf").read() + f"ess_cert_id_alg={identity}\n"
    open(work + "/now.cnf", "w").write(config)
    openssl("ts", "-reply", "-config", "now.cnf", "-queryfile", "query", "-signer", f"{clock}.pem", "-inkey", f"{clock}.key", f"-{digest}", "-chain", chain, "-out", "reply")
    return open(work + "/reply", "rb").read()


def other_imprint(query):
    at = query.index(b"\x04\x20") + 2  # the digest: an OCTET STRING of 32 bytes
    return query[:at] + bytes([query[at] ^ 1]) + query[at + 1:]


def other_nonce(query):
    at = query.rindex(b"\x02\x08") + 9
    return query[:at] + bytes([query[at] ^ 1]) + query[at + 1:]


def without_purpose(query, name):
    """OpenSSL refuses to stamp with such a certificate: its reply is signed anew, as by a careless authority."""
    reply = answer(query)
    token = openssl("ts", "-reply", "-config", "now.cnf", "-in", "reply", "-token_out")
    open(work + "/token", "wb").write(token)
    info = openssl("cms", "-verify", "-noverify", "-inform", "DER", "-in", "token", "-outform", "DER")
    open(work + "/info", "wb").write(info)
    openssl("cms", "-sign", "-binary", "-nodetach", "-cades", "-econtent_type", "1.2.840.113549.1.9.16.1.4", "-in", "info", "-outform", "DER", "-out", "forged", "-signer", f"{name}.pem", "-inkey", f"{name}.key", "-md", "sha256", "-nosmimecap")
    return wrapped(bytes.fromhex("3003020100") + open(work + "/forged", "rb").read())


def wrapped(content):
    return b"\x30\x82" + len(content).to_bytes(2, "big") + content


ways = {
    "/good": lambda query: answer(query),
    "/sha512": lambda query: answer(query, digest="sha512", identity="sha512"),
    "/stray": lambda query: answer(query, clock="Stray Clock", chain="Stray Clock.pem"),
    "/sha1-identity": lambda query: answer(query, identity="sha1"),
    "/imprint": lambda query: answer(other_imprint(query)),
    "/nonce": lambda query: answer(other_nonce(query)),
    "/refused": lambda query: bytes.fromhex("30053003020102"),
    "/loose": lambda query: without_purpose(query, "Loose Clock"),
    "/busy": lambda query: without_purpose(query, "Busy Clock"),
    "/none": lambda query: without_purpose(query, "No Clock"),
    "/resigned": lambda query: without_purpose(query, "Harbour Clock"),
    "/changed": lambda query: answer(query)[:-1] + b"\x00",
    "/rubbish": lambda query: b"<html>no</html>",
    "/empty": lambda query: b"",
    "/large": lambda query: b"0" * 70000,
}
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


server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Authority)
threading.Thread(target=server.serve_forever, daemon=True).start()
base = f"http://127.0.0.1:{server.server_port}"
closed = socket.socket()
closed.bind(("127.0.0.1", 0))  # bound and not listening: nobody answers there
nobody = f"http://127.0.0.1:{closed.getsockname()[1]}/"

run("signer", "new", work + "/signer.p12", "--name", "Ada Sorrel")
shown = json.loads(run("signer", "show", work + "/signer.p12", "--json").stdout)
made = 0


def issue(url, *more, signer=work + "/signer.p12"):
    global made
    made += 1
    report = f"{work}/report-{made}.pdf"
    return report, run("issue", survey, "-o", report, "--signer", signer, "--timestamp", url, *more)


def verify(report, *more):
    return run("verify", report, "--fingerprint", shown["fingerprint"], *more)


report, said = issue(base + "/good")
expect(said.returncode == 0 and os.path.exists(report), "a timestamped report is issued: " + said.stderr)
expect(asked == [("/good", "application/timestamp-query")], f"asked once, and for a timestamp: {asked}")
said = verify(report)
now = datetime.datetime.now(datetime.timezone.utc)
expect(said.returncode == 0 and 'timestamp: sealed before' in said.stdout and f"{now.day} {now:%B %Y}" in said.stdout and 'by the word of "Harbour Clock"; that it is really theirs is not shown' in said.stdout, "verify names time and authority: " + said.stdout)
stamp = json.loads(verify(report, "--json").stdout)[0]["timestamp"]
expect(abs(stamp["at"] - time.time()) < 60 and stamp["authority"] == "Harbour Clock" and stamp["organisation"] == "Harbour" and stamp["vouched-for"] is False, f"the same in JSON: {stamp}")
said = subprocess.run(["pdfsig", report], capture_output=True, text=True).stdout
expect("Signature is Valid." in said and "Total document signed" in said, "pdfsig accepts it: " + said)

for way in ("/sha512", "/sha1-identity", "/resigned"):
    other, said = issue(base + way)
    expect(said.returncode == 0 and verify(other).returncode == 0, f"{way}: accepted: {said.stderr}")

for way, words in {"/imprint": "for another signature", "/nonce": "its nonce is not ours", "/refused": "did not grant", "/loose": "not for timestamps alone", "/busy": "not for timestamps alone", "/none": "not for timestamps alone", "/changed": "does not fit its certificate's key", "/rubbish": "not a timestamp response", "/empty": "cut short", "/large": "larger than 64 kB", "/unknown": "status 404"}.items():
    other, said = issue(base + way)
    expect(said.returncode == 2 and words in said.stderr and not os.path.exists(other), f"{way}: exit 2, {words}, nothing written: {said.returncode} {said.stderr}")

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

# The token of one report in another, and bytes of it changed.
def token_at(pdf):
    """Where its hex digits begin and end."""
    at = pdf.index(b"060b2a864886f70d010910020e")  # id-aa-timeStampToken, then SET, then the token
    begin = at + 26 + 8
    return begin, begin + 2 * (int(pdf[begin + 4:begin + 8], 16) + 4)


good = open(report, "rb").read()
begin, end = token_at(good)
expect(good[begin:begin + 4] == b"3082" and end - begin > 2000, "the token is found")
open(work + "/in-report", "wb").write(bytes.fromhex(good[begin:end].decode()))
signature = good.index(b"060b2a864886f70d010910020e") - 16  # before the heads of [1] and of the attribute; RSA-3072
open(work + "/signature", "wb").write(bytes.fromhex(good[signature - 768:signature].decode()))
said = subprocess.run(["openssl", "ts", "-verify", "-token_in", "-in", "in-report", "-data", "signature", "-CAfile", "ca.pem"], cwd=work, capture_output=True, text=True)
expect(said.returncode == 0 and "Verification: OK" in said.stdout + said.stderr, "openssl ts -verify accepts the token over the signature: " + said.stdout + said.stderr)
for at in range(begin, end, 97):
    changed = good[:at] + (b"1" if good[at:at + 1] == b"0" else b"0") + good[at + 1:]
    open(work + "/changed.pdf", "wb").write(changed)
    said = verify(work + "/changed.pdf")
    expect(said.returncode == 4, f"digit {at - begin} of the token changed: exit {said.returncode}")

# Authorities that vouch, at the time of the timestamp.
openssl("pkcs12", "-export", "-inkey", "Ada Vouched.key", "-in", "Ada Vouched.pem", "-out", "vouched.p12", "-passout", "pass:a test phrase")
old, said = issue(base + "/good", "--issued-on", "2001-01-01", signer=work + "/vouched.p12")
said = run("verify", old, "--trust", work + "/ca.pem")
expect(said.returncode == 0 and "for which an authority named vouches" in said.stdout, "the certificate counts at the time of the timestamp: " + said.stdout)
bare = work + "/bare.pdf"
run("issue", survey, "-o", bare, "--issued-on", "2001-01-01", "--signer", work + "/vouched.p12")
expect(run("verify", bare, "--trust", work + "/ca.pem").returncode == 5, "without one, at the time claimed")

stray, said = issue(base + "/stray", "--issued-on", "2001-01-01", signer=work + "/vouched.p12")
said = run("verify", stray, "--trust", work + "/ca.pem", "--json")
told = json.loads(said.stdout)[0]
expect(said.returncode == 5 and told["timestamp"]["authority"] == "Stray Clock" and told["timestamp"]["vouched-for"] is False and not told["signer"]["valid-then"], f"a timestamp that nobody vouches for moves no time: {said.stdout}")

# A certificate that expires soon after.
days, left = 365, 12
past = str(int(time.time()) - days * 86400 + left)
phrase = dict(os.environ, RIGDEED_PASSPHRASE="a test phrase", SOURCE_DATE_EPOCH=past)
said = run("signer", "new", work + "/short.p12", "--name", "Ada Brief", "--years", "1", "--json", env=phrase)
brief = json.loads(said.stdout)["fingerprint"]
short, said = issue(base + "/good", signer=work + "/short.p12")
expect(said.returncode == 0, "issued shortly before the certificate expires: " + said.stderr)
time.sleep(max(0.0, int(past) + days * 86400 + 2 - time.time()))
said = run("verify", short, "--fingerprint", brief)
expect(said.returncode == 0 and "has expired since; at the time of the timestamp it was valid" in said.stdout and "remark" not in said.stdout, "expired since, stamped before: good, and says why: " + said.stdout)
late, said = issue(base + "/good", signer=work + "/short.p12")
said = run("verify", late, "--fingerprint", brief)
expect("certificate was not valid" in said.stdout and "expired since" not in said.stdout, "stamped after it expired: a remark: " + said.stdout)

server.shutdown()
shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)

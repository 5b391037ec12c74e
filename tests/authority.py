#!/usr/bin/env python3
"""Authorities for tests, made with openssl: certificates, and timestamps (RFC 3161) over HTTP on loopback.

usage: authority.py FOLDER
Makes a root, a chain and signers in FOLDER, serves timestamps, writes the address into FOLDER/address and waits to be
ended. In FOLDER: root.pem, coast.pem and quay.pem (by root, by coast), clock.pem (timestamps, by quay), and the signers
rsa-alone.p12, rsa-chain.p12, p256-alone.p12, p256-chain.p12 (passphrase "a test phrase") with their .pem: those alone are by
root, those with a chain by quay.
"""
import http.server, os, subprocess, sys, threading, time

LEAF = "basicConstraints=critical,CA:FALSE\nkeyUsage=critical,digitalSignature,nonRepudiation\n"
AUTHORITY = "basicConstraints=critical,CA:TRUE\nkeyUsage=critical,keyCertSign,cRLSign\n"
KEYS = {"p256": ["ec", "-pkeyopt", "ec_paramgen_curve:P-256"], "p384": ["ec", "-pkeyopt", "ec_paramgen_curve:P-384"],
        "p521": ["ec", "-pkeyopt", "ec_paramgen_curve:P-521"], "pss": ["rsa-pss", "-pkeyopt", "rsa_keygen_bits:2048"]}


class Authorities:
    def __init__(self, folder):
        self.folder = folder
        self.lock = threading.Lock()
        open(folder + "/serial", "w").write("01\n")

    def path(self, name):
        return f"{self.folder}/{name}"

    def openssl(self, *words):
        return subprocess.run(["openssl", *words], cwd=self.folder, check=True, capture_output=True).stdout

    def certificate(self, name, by=None, extensions=LEAF, key="rsa:2048", subject=None, days=3650):
        """name.pem and name.key; without `by` self-signed."""
        identities = "subjectKeyIdentifier=hash\n" + ("authorityKeyIdentifier=keyid\n" if by else "")
        open(self.path(name + ".ext"), "w").write(extensions + identities)
        self.openssl("req", "-newkey", *KEYS.get(key, [key]), "-nodes", "-keyout", f"{name}.key", "-out", f"{name}.csr", "-subj", subject or f"/O=Harbour/CN={name}")
        issuer = ["-CA", f"{by}.pem", "-CAkey", f"{by}.key", "-CAcreateserial"] if by else ["-signkey", f"{name}.key"]
        self.openssl("x509", "-req", "-in", f"{name}.csr", *issuer, "-out", f"{name}.pem", "-days", str(days), "-extfile", f"{name}.ext")

    def clock(self, name, by=None, usage="critical,timeStamping", **more):
        purpose = f"extendedKeyUsage={usage}\n" if usage else ""
        self.certificate(name, by, "basicConstraints=critical,CA:FALSE\nkeyUsage=critical,digitalSignature\n" + purpose, **more)

    def shorten(self, name, by, until):
        """The certificate anew, valid until that many seconds since 1970."""
        open(self.path("index"), "w").close()
        open(self.path("brief.cnf"), "w").write("[ca]\ndefault_ca=c\n[c]\ndatabase=index\nnew_certs_dir=.\nserial=brief\npolicy=p\n[p]\norganizationName=optional\ncommonName=supplied\n")
        self.openssl("ca", "-batch", "-notext", "-config", "brief.cnf", "-rand_serial", "-in", f"{name}.csr", "-cert", f"{by}.pem", "-keyfile", f"{by}.key", "-md", "sha256", "-out", f"{name}.pem", "-enddate", time.strftime("%Y%m%d%H%M%SZ", time.gmtime(until)), "-extfile", f"{name}.ext")

    def revocation_list(self, by, revoked, next=None, file="list.crl", reason=""):
        """PEM of a list by an authority: `revoked` by name, with the second since 1970 since when; all for one reason."""
        def time_of(seconds, form="%y%m%d%H%M%SZ"):
            return time.strftime(form, time.gmtime(seconds))

        with open(self.path("index"), "w") as index:
            for name, since in revoked.items():
                serial = self.openssl("x509", "-in", f"{name}.pem", "-noout", "-serial").decode().strip().split("=")[1]
                when = ",".join([time_of(since), *([reason] if reason else [])])
                index.write(f"R\t401231000000Z\t{when}\t{serial}\tunknown\t/CN={name}\n")
        open(self.path("lists.cnf"), "w").write("[ca]\ndefault_ca=c\n[c]\ndatabase=index\n")
        until = time_of(next or time.time() + 86400, "%Y%m%d%H%M%SZ")
        self.openssl("ca", "-gencrl", "-config", "lists.cnf", "-cert", f"{by}.pem", "-keyfile", f"{by}.key", "-md", "sha256", "-crl_lastupdate", "20260101000000Z", "-crl_nextupdate", until, "-out", file)
        return self.path(file)

    def signer_file(self, name, phrase, *chain, file=None):
        """PKCS#12 of the certificate, and of those in `chain`."""
        file = file or f"{name}.p12"
        more = []
        if chain:
            open(self.path("more.pem"), "w").write("".join(open(self.path(one + ".pem")).read() for one in chain))
            more = ["-certfile", "more.pem"]
        self.openssl("pkcs12", "-export", "-inkey", f"{name}.key", "-in", f"{name}.pem", *more, "-out", file, "-passout", f"pass:{phrase}")
        return self.path(file)

    def answer(self, query, clock="clock", digest="sha256", identity="sha256", chain=None):
        """A timestamp response, by `openssl ts`."""
        with self.lock:
            open(self.path("query"), "wb").write(query)
            open(self.path("now.cnf"), "w").write(f"[tsa]\ndefault_tsa=t\n[t]\nserial=serial\ndefault_policy=1.2.3.4.1\ndigests=sha256,sha384,sha512\nsigner_digest=sha256\ness_cert_id_chain=no\ntsa_name=no\ness_cert_id_alg={identity}\n")
            more = ["-chain", f"{chain}.pem"] if chain else []
            self.openssl("ts", "-reply", "-config", "now.cnf", "-queryfile", "query", "-signer", f"{clock}.pem", "-inkey", f"{clock}.key", f"-{digest}", *more, "-out", "reply")
            return open(self.path("reply"), "rb").read()


def serve(handler):
    """The address of a server on loopback that runs as long as the program."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return f"http://127.0.0.1:{server.server_port}"


def main(folder):
    made = Authorities(folder)
    made.certificate("root", extensions=AUTHORITY)
    made.certificate("coast", "root", AUTHORITY)
    made.certificate("quay", "coast", AUTHORITY, key="p256")
    made.clock("clock", "root")
    for kind, key in ("rsa", "rsa:3072"), ("p256", "p256"):
        for name, by, chain in (f"{kind}-alone", "root", ()), (f"{kind}-chain", "quay", ("quay", "coast", "root")):
            made.certificate(name, by, key=key, subject=f"/O=Harbour/CN=Ada Sorrel {kind}")
            made.signer_file(name, "a test phrase", *chain)

    class Clock(http.server.BaseHTTPRequestHandler):
        def do_POST(self):
            body = made.answer(self.rfile.read(int(self.headers["Content-Length"])))
            self.send_response(200)
            self.send_header("Content-Type", "application/timestamp-reply")
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *words):
            pass

    address = serve(Clock)
    open(made.path("address.part"), "w").write(address)
    os.rename(made.path("address.part"), made.path("address"))
    threading.Event().wait()


if __name__ == "__main__":
    main(os.path.abspath(sys.argv[1]))

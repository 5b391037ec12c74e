#!/usr/bin/env python3
"""Project Wycheproof's signature vectors through our verify function: RSA PKCS#1 v1.5 of 2048 to 4096 bits and ECDSA on
P-256 and P-384, with SHA-256, 384 and 512. What the vectors call "acceptable" must be refused.

usage: vectors.py PROGRAM CRATE [PAGE]
PROGRAM is build/tests/signature_vectors, CRATE the archive that carries the vectors, PAGE a check page: its functions,
under Node, must say the same of every vector.
What an RSA key with an exponent below 65537 signed must be refused as well.
Of the two values of s that ECDSA allows, ours takes the lower one only: a valid vector with the higher must be refused.
Prints "N passed, N failed".
"""
import json, os, subprocess, sys, tarfile

program, crate, *page = sys.argv[1:]
core = os.path.join(os.path.dirname(os.path.abspath(__file__)), "../page/core.js")
ORDERS = {"secp256r1": 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551,  # FIPS 186-4, D.1.2.3, D.1.2.4
          "secp384r1": 0xFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFFC7634D81F4372DDF581A0DB248B0A77AECEC196ACCC52973}
FILES = {f"rsa_signature_{bits}_{digest}_test.json": 100 for bits in (2048, 3072, 4096) for digest in ("sha256", "sha384", "sha512")}
FILES |= {f"ecdsa_{curve}_{digest}_test.json": 300 for curve, digest in (("secp256r1", "sha256"), ("secp256r1", "sha512"), ("secp384r1", "sha256"), ("secp384r1", "sha384"), ("secp384r1", "sha512"))}
passed = failed = 0


def higher_s(signature, order):
    """The second integer of a DER sequence of two that is known to be valid."""
    body = bytes.fromhex(signature)
    r_length = body[3]
    s = int.from_bytes(body[6 + r_length:], "big")
    return s > order - s


with tarfile.open(crate) as archive:
    for name, least in FILES.items():
        member = next(one for one in archive.getnames() if one.endswith("/data/" + name))
        cases, wanted = [], []
        kind, group_name, digest = name.split("_")[0], *name.split("_")[-3:-1]
        for group in json.load(archive.extractfile(member))["testGroups"]:
            exponent = group.get("e") or group.get("publicKey", {}).get("publicExponent") if kind == "rsa" else None
            is_weak = exponent is not None and int(exponent, 16) < 65537
            key = group.get("publicKeyDer") or group["keyDer"]
            for test in group["tests"]:
                cases.append(f"{digest.upper()} {key} {test['msg'] or '-'} {test['sig'] or '-'}")
                valid = test["result"] == "valid" and not is_weak and not (kind == "ecdsa" and higher_s(test["sig"], ORDERS[group_name]))
                wanted.append((int(valid), f"{name} {test['tcId']}: {test['result']}, {test['comment']}"))
        lines = "\n".join(cases) + "\n"
        said = subprocess.run([program], input=lines, capture_output=True, text=True).stdout.split()
        if page:
            also = subprocess.run(["node", core, page[0], "vectors"], input=lines, capture_output=True, text=True).stdout.split()
            for i, (_, what) in enumerate(wanted):
                agrees = i < len(also) and i < len(said) and also[i] == said[i]
                passed, failed = passed + agrees, failed + (not agrees)
                if not agrees:
                    print(f"FAILED: {what}: the program says {said[i:i + 1]}, the page {also[i:i + 1]}")
        enough = len(said) == len(cases) >= least and any(value for value, _ in wanted) and not all(value for value, _ in wanted)
        passed, failed = passed + enough, failed + (not enough)
        if not enough:
            print(f"FAILED: {name}: {len(said)} answers to {len(cases)} vectors")
        for answer, (value, what) in zip(said, wanted):
            fits = answer == str(value)
            passed, failed = passed + fits, failed + (not fits)
            if not fits:
                print(f"FAILED: {what}: accepted is {answer}")
print(f"{passed} passed, {failed} failed")
sys.exit(failed != 0)

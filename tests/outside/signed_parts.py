#!/usr/bin/env python3
"""Takes a sealed PDF apart for `openssl cms`: the bytes that are signed, and the signature.

usage: signed_parts.py REPORT FOLDER
Writes FOLDER/signed (the two parts of ByteRange) and FOLDER/signature (the CMS, DER, without its padding).
"""
import re
import sys
from pathlib import Path

report, folder = Path(sys.argv[1]).read_bytes(), Path(sys.argv[2])
ranges = re.findall(rb"/ByteRange\s*\[\s*(\d+)\s+(\d+)\s+(\d+)\s+(\d+)\s*\]", report)
if len(ranges) != 1:
    sys.exit(f"{len(ranges)} ByteRanges")
first, length, second, rest = map(int, ranges[0])
if first != 0 or second + rest != len(report):
    sys.exit("ByteRange does not reach from the first byte to the last")
gap = report[length:second]
if gap[:1] != b"<" or gap[-1:] != b">":
    sys.exit("the gap in ByteRange is not one hex string")
padded = bytes.fromhex(gap[1:-1].decode("ascii"))
if padded[:2] != b"\x30\x82":
    sys.exit("the signature is not a DER sequence of 256 to 65535 bytes")
signature = padded[:4 + int.from_bytes(padded[2:4], "big")]
if padded[len(signature):].strip(b"\0"):
    sys.exit("something stands behind the signature")
(folder / "signed").write_bytes(report[:length] + report[second:])
(folder / "signature").write_bytes(signature)

#!/usr/bin/env python3
"""What is linked to the program and built into it, as an SPDX 2.3 document: Debian's packages with their versions.

usage: make_sbom.py PROGRAM VERSION DATE OUTPUT
"""
import hashlib, json, os, re, subprocess, sys
from pathlib import Path

program, version, date, output = sys.argv[1], sys.argv[2], sys.argv[3], Path(sys.argv[4])
BUILT_IN = {"fonts-lato": "fonts", "fonts-dejavu-core": "fonts", "icc-profiles-free": "colour profile", "libcli11-dev": "headers", "libzxing-dev": "headers"}


def output_of(*words):
    return subprocess.run(words, capture_output=True, text=True, env=dict(os.environ, LC_ALL="C")).stdout


def version_of(package):
    return output_of("dpkg-query", "-W", "-f=${Version}", package).strip()


def package_of(path):
    for candidate in (path, os.path.realpath(path), "/usr" + path):
        found = output_of("dpkg-query", "-S", candidate)
        if found:
            return found.split(":")[0]
    return None


libraries = sorted({package for path in re.findall(r"=> (/\S+)", output_of("ldd", program)) if (package := package_of(path))})
digest = hashlib.sha256(Path(program).read_bytes()).hexdigest()
packages = [{"SPDXID": "SPDXRef-rigdeed", "name": "rigdeed", "versionInfo": version, "downloadLocation": "NOASSERTION", "filesAnalyzed": False, "licenseDeclared": "GPL-3.0-or-later",
             "checksums": [{"algorithm": "SHA256", "checksumValue": digest}], "primaryPackagePurpose": "APPLICATION"}]
relations = [{"spdxElementId": "SPDXRef-DOCUMENT", "relationshipType": "DESCRIBES", "relatedSpdxElement": "SPDXRef-rigdeed"}]
for name, how in [(one, "DYNAMIC_LINK") for one in libraries] + [(one, "CONTAINS") for one in sorted(BUILT_IN)]:
    identity = "SPDXRef-" + re.sub(r"[^A-Za-z0-9.-]", "-", name)
    packages.append({"SPDXID": identity, "name": name, "versionInfo": version_of(name), "downloadLocation": "NOASSERTION", "filesAnalyzed": False, "supplier": "Organization: Debian",
                     "externalRefs": [{"referenceCategory": "PACKAGE-MANAGER", "referenceType": "purl", "referenceLocator": f"pkg:deb/debian/{name}@{version_of(name)}"}]})
    relations.append({"spdxElementId": "SPDXRef-rigdeed", "relationshipType": how, "relatedSpdxElement": identity})
document = {"spdxVersion": "SPDX-2.3", "dataLicense": "CC0-1.0", "SPDXID": "SPDXRef-DOCUMENT", "name": f"rigdeed-{version}", "documentNamespace": f"urn:rigdeed:sbom:{version}:{digest}",
            "creationInfo": {"created": date + "T00:00:00Z", "creators": ["Tool: make_sbom.py"]}, "packages": packages, "relationships": relations}
output.write_text(json.dumps(document, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")

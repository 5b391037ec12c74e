// DER (X.690): pieces of it read in the one form that is allowed, and written.

const TAG = { flag: 0x01, integer: 0x02, bits: 0x03, octets: 0x04, nothing: 0x05, oid: 0x06, utcTime: 0x17, time: 0x18, sequence: 0x30, set: 0x31, context0: 0xa0, context1: 0xa1, context3: 0xa3, context4: 0xa4 };

const oidBytes = (hex) => Uint8Array.from(hex.match(/../g), (two) => parseInt(two, 16));
// RFC 5652, RFC 5035, RFC 3161, RFC 5754, RFC 8017, RFC 5480, RFC 5280.
const OID = Object.fromEntries(Object.entries({
  data: "2a864886f70d010701", signedData: "2a864886f70d010702", contentType: "2a864886f70d010903", messageDigest: "2a864886f70d010904",
  tstInfo: "2a864886f70d0109100104", signingCertificate: "2a864886f70d010910020c", timestamp: "2a864886f70d010910020e", signingCertificateV2: "2a864886f70d010910022f",
  sha256: "608648016503040201", sha384: "608648016503040202", sha512: "608648016503040203",
  rsa: "2a864886f70d010101", rsaSha256: "2a864886f70d01010b", rsaSha384: "2a864886f70d01010c", rsaSha512: "2a864886f70d01010d",
  ec: "2a8648ce3d0201", p256: "2a8648ce3d030107", p384: "2b81040022",
  ecdsaSha256: "2a8648ce3d040302", ecdsaSha384: "2a8648ce3d040303", ecdsaSha512: "2a8648ce3d040304",
  commonName: "550403", organisation: "55040a", country: "550406", keyUsage: "551d0f", extendedKeyUsage: "551d25", timeStamping: "2b06010505070308",
}).map(([key, hex]) => [key, oidBytes(hex)]));

// The elements that fill `bytes`, each { tag, content, whole }; a Fault if they are no DER.
function derAll(bytes) {
  const found = [];
  for (let at = 0; at < bytes.length;) {
    const wrong = () => { throw new Fault("cms", "not DER"); };
    if (bytes.length - at < 2 || (bytes[at] & 0x1f) === 0x1f) wrong();
    let length = bytes[at + 1], header = 2;
    if (length >= 0x80) {
      const count = length & 0x7f;
      if (count < 1 || count > 3 || bytes.length - at < 2 + count) wrong();
      length = 0;
      for (let i = 0; i < count; i++) length = length * 256 + bytes[at + 2 + i];
      if (length < 0x80 || length < 256 ** (count - 1)) wrong();
      header += count;
    }
    if (length > bytes.length - at - header) wrong();
    found.push({ tag: bytes[at], content: bytes.subarray(at + header, at + header + length), whole: bytes.subarray(at, at + header + length) });
    at += header + length;
  }
  return found;
}

// The one element that `bytes` are.
function derOne(bytes, tag) {
  const [one, ...more] = derAll(bytes);
  if (!one || more.length > 0 || one.tag !== tag) throw new Fault("cms", "another element than a signature of ours has there");
  return one;
}

const within = (element) => derAll(element.content);

function derOf(tag, ...contents) {
  const content = joinBytes(...contents);
  const digits = [];
  if (content.length >= 0x80) for (let rest = content.length; rest > 0; rest = Math.floor(rest / 256)) digits.unshift(rest % 256);
  return joinBytes(Uint8Array.from(digits.length > 0 ? [tag, 0x80 | digits.length, ...digits] : [tag, content.length]), content);
}

const oidOf = (name) => derOf(TAG.oid, OID[name]);
const isOid = (element, name) => element?.tag === TAG.oid && sameBytes(element.content, OID[name]);

function bytesOrder(one, other) {
  for (let i = 0; i < Math.min(one.length, other.length); i++) if (one[i] !== other[i]) return one[i] - other[i];
  return one.length - other.length;
}

// A SET OF wants its members in the order of their bytes (X.690, 11.6).
const inOrder = (pieces) => joinBytes(...[...pieces].sort(bytesOrder));

// A positive whole number as DER writes it, or null.
function numberOf(element) {
  const bytes = element?.content;
  if (element?.tag !== TAG.integer || bytes.length === 0 || bytes[0] > 0x7f || bytes.length > 1 && bytes[0] === 0 && bytes[1] < 0x80) return null;
  return BigInt("0x" + hexOf(bytes));
}

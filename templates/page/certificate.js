// What a certificate says (RFC 5280), and signatures by its key (RFC 8017, FIPS 186-5) through the browser's WebCrypto.

const CURVES = {
  p256: { name: "P-256", size: 32, order: 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n },
  p384: { name: "P-384", size: 48, order: 0xffffffffffffffffffffffffffffffffffffffffffffffffc7634d81f4372ddf581a0db248b0a77aecec196accc52973n },
};

// { kind: "rsa", bits } or { kind: "p256" | "p384" }, of a SubjectPublicKeyInfo; null for a key of any other sort.
function keyOf(info) {
  try {
    const [algorithm, bits, ...more] = within(derOne(info, TAG.sequence));
    const [kind, parameter, ...rest] = within(algorithm);
    if (more.length > 0 || rest.length > 0 || bits.tag !== TAG.bits || bits.content[0] !== 0) return null;
    const key = bits.content.subarray(1);
    if (isOid(kind, "rsa")) {
      const [modulus, exponent, ...others] = within(derOne(key, TAG.sequence)).map(numberOf);
      if (parameter?.tag !== TAG.nothing || others.length > 0 || !modulus || !exponent) return null;
      const size = modulus.toString(2).length;
      // A small exponent lets signatures be made up without the key (FIPS 186-5, 5.1).
      return size >= 2048 && size <= 8192 && exponent % 2n === 1n && exponent > 65536n ? { kind: "rsa", bits: size } : null;
    }
    const curve = isOid(kind, "ec") && ["p256", "p384"].find((one) => isOid(parameter, one));
    return curve && key.length === 1 + 2 * CURVES[curve].size && key[0] === 4 ? { kind: curve } : null;
  } catch (fault) {
    if (fault instanceof Fault) return null;
    throw fault;
  }
}

// The two numbers of an ECDSA signature side by side, as WebCrypto wants them; null unless it is DER with the lower of
// the two values that s may have: with both allowed, a signed file could be changed and still fit.
function plainSignature(signature, curve) {
  try {
    const numbers = within(derOne(signature, TAG.sequence)).map(numberOf);
    const [r, s] = numbers;
    if (numbers.length !== 2 || !r || !s || r >= curve.order || s > curve.order - s) return null;
    const digits = (value) => value.toString(16).padStart(2 * curve.size, "0");
    return oidBytes(digits(r) + digits(s));
  } catch (fault) {
    if (fault instanceof Fault) return null;
    throw fault;
  }
}

// Whether `signature` over `message` is by the key of this SubjectPublicKeyInfo; `hash` is "SHA-256", -384 or -512.
async function isSignedBy(info, hash, message, signature) {
  const key = keyOf(info);
  if (!key) return false;
  const curve = CURVES[key.kind];
  const plain = curve ? plainSignature(signature, curve) : signature;
  if (!plain || !curve && plain.length !== Math.ceil(key.bits / 8)) return false;
  const algorithm = curve ? { name: "ECDSA", namedCurve: curve.name, hash } : { name: "RSASSA-PKCS1-v1_5", hash };
  try {
    const read = await crypto.subtle.importKey("spki", info, algorithm, false, ["verify"]);
    return await crypto.subtle.verify(algorithm, read, plain, message);
  } catch (error) {
    if (error instanceof TypeError) throw error;
    return false;  // a point that is on no curve, or a key that this browser does not read
  }
}

// Seconds since 1970 of UTCTime or GeneralizedTime as certificates have them.
function timeOf(element) {
  const short = element.tag === TAG.utcTime;
  const digits = latinOf(element.content);
  if (!short && element.tag !== TAG.time || !(short ? /^\d{12}Z$/ : /^\d{14}Z$/).test(digits)) throw new Fault("certificate", "a date of another form");
  const year = short ? (Number(digits.slice(0, 2)) < 50 ? "20" : "19") + digits.slice(0, 2) : digits.slice(0, 4);
  return secondsOf(year + digits.slice(short ? 2 : 4, -1));
}

// Seconds since 1970 of "20261003091400", UTC; a Fault if there is no such moment.
function secondsOf(digits) {
  const iso = digits.replace(/^(....)(..)(..)(..)(..)(..)$/, "$1-$2-$3T$4:$5:$6.000Z");
  const when = new Date(iso);
  if (Number.isNaN(when.getTime()) || when.toISOString() !== iso) throw new Fault("certificate", "no such date");
  return when.getTime() / 1000;
}

const TEXT_TAGS = { 12: "utf-8", 19: "latin", 20: "latin", 22: "latin", 30: "utf-16be" };

// The first part of a name of this kind, as text.
function namePart(name, kind) {
  for (const set of within(name))
    for (const part of within(set)) {
      const [type, value] = within(part);
      if (!isOid(type, kind) || !value) continue;
      const coding = TEXT_TAGS[value.tag];
      return !coding ? "" : harmless(coding === "latin" ? latinOf(value.content) : new TextDecoder(coding).decode(value.content));
    }
  return "";
}

// { whole, issuer, serial, subject, key, name, organisation, from, until, fingerprint, extensions }
function readCertificate(whole) {
  const [body, , , ...more] = within(derOne(whole, TAG.sequence));
  const fields = within(body);
  if (fields[0]?.tag === TAG.context0) fields.shift();
  const [serial, , issuer, validity, subject, key, ...rest] = fields;
  if (more.length > 0 || serial?.tag !== TAG.integer || issuer?.tag !== TAG.sequence || subject?.tag !== TAG.sequence || key?.tag !== TAG.sequence)
    throw new Fault("certificate", "a certificate of another form");
  const [from, until] = within(validity).map(timeOf);
  const extensions = rest.filter((one) => one.tag === TAG.context3).flatMap((one) => within(derOne(one.content, TAG.sequence))).map(within);
  return {
    whole, issuer: issuer.whole, serial: serial.whole, subject: subject.whole, key: key.whole, from, until, extensions,
    name: namePart(subject, "commonName"), organisation: namePart(subject, "organisation"), fingerprint: sha256(whole),
  };
}

// A timestamp on a seal (RFC 3161). Nothing signs it but its authority, so it is examined as the seal is: written again
// from what it says, and compared. Who that authority is, nobody here judges.

const HASHES = { sha256: "SHA-256", sha384: "SHA-384", sha512: "SHA-512" };
const LARGEST_TOKEN_KEY = 4096;

const hashNamed = (element) => Object.keys(HASHES).find((one) => isOid(element, one));
const digestBy = async (hash, bytes) => new Uint8Array(await crypto.subtle.digest(hash, bytes));

function wrongToken(found) { throw new Fault("timestamp", found); }

// Seconds since 1970 of "20261125151500.123Z".
function momentOf(element) {
  const parts = element?.tag === TAG.time && /^(\d{14})(\.\d+)?Z$/.exec(latinOf(element.content));
  return parts ? secondsOf(parts[1]) : wrongToken("a time of another form");
}

function smallNumber(content) {
  if (content.length < 1 || content.length > 4 || content[0] > 0x7f) wrongToken("a number of another form");
  return Number("0x" + hexOf(content));
}

// Seconds by which the clock may be off, each begun one counted.
function accuracyOf(element) {
  let seconds = 0, last = -1;
  for (const part of within(element)) {
    const at = [TAG.integer, 0x80, 0x81].indexOf(part.tag);
    const number = smallNumber(part.content);
    if (at <= last || at > 0 && (number < 1 || number > 999)) wrongToken("an accuracy of another form");
    seconds = at === 0 ? number : Math.floor(seconds) + 0.5;
    last = at;
  }
  return Math.ceil(seconds);
}

// What may follow the time: accuracy, ordering, nonce, the authority's name, extensions; each once, in this order.
function optionsOf(fields) {
  const order = [TAG.sequence, TAG.flag, TAG.integer, TAG.context0, TAG.context1];
  let at = 0, accuracy = 0;
  for (const field of fields) {
    while (at < order.length && order[at] !== field.tag) at++;
    if (at++ === order.length) wrongToken("something more than a timestamp says");
    if (field.tag === TAG.sequence) accuracy = accuracyOf(field);
    if (field.tag === TAG.context1 && within(field).some((one) => within(one)[1]?.tag === TAG.flag)) wrongToken("an extension that must be understood");
  }
  return accuracy;
}

function readStamp(bytes, stamped) {
  const fields = within(derOne(bytes, TAG.sequence));
  const [number, , imprint, , time, ...more] = fields;
  if (!number || !sameBytes(number.whole, version(1)) || imprint?.tag !== TAG.sequence) wrongToken("content of another form");
  const [algorithm, digest, ...rest] = within(imprint);
  if (rest.length > 0 || !isOid(within(algorithm)[0], "sha256") || digest?.tag !== TAG.octets) wrongToken("content of another form");
  if (!sameBytes(digest.content, stamped)) wrongToken("it is for another signature");
  return { at: momentOf(time), accuracy: optionsOf(more) };
}

// RFC 2634 and RFC 5035: the first certificate named, by its digest.
async function namesCertificate(attributes, certificate) {
  const types = derAll(attributes).map((one) => within(one)[0]);
  const newer = types.some((one) => isOid(one, "signingCertificateV2"));
  const [list] = within(attribute(attributes, newer ? "signingCertificateV2" : "signingCertificate"));
  const [first, second] = within(within(list)[0]);
  if (first.tag === TAG.octets) return sameBytes(first.content, newer ? certificate.fingerprint : await digestBy("SHA-1", certificate.whole));
  const hash = newer && first.tag === TAG.sequence ? hashNamed(within(first)[0]) : undefined;
  return hash !== undefined && second?.tag === TAG.octets && sameBytes(second.content, await digestBy(HASHES[hash], certificate.whole));
}

// RFC 3161, 2.3: for timestamps alone, and that must be understood.
function isForTimestamps(certificate) {
  const found = certificate.extensions.filter(([kind]) => isOid(kind, "extendedKeyUsage"));
  if (found.length !== 1 || found[0].length !== 3 || found[0][1].tag !== TAG.flag || found[0][1].content[0] !== 0xff) return false;
  const purposes = within(derOne(found[0][2].content, TAG.sequence));
  return purposes.length === 1 && isOid(purposes[0], "timeStamping");
}

function writeToken(hash, info, certificate, attributes, algorithm, signature) {
  const digest = derOf(TAG.sequence, oidOf(hash));
  const signer = derOf(TAG.sequence, version(1), nameOf(certificate), digest, derOf(TAG.context0, attributes), algorithm, derOf(TAG.octets, signature));
  const content = derOf(TAG.sequence, oidOf("tstInfo"), derOf(TAG.context0, derOf(TAG.octets, info)));
  return derOf(TAG.sequence, oidOf("signedData"), derOf(TAG.context0, derOf(TAG.sequence, version(3), derOf(TAG.set, digest), content,
    derOf(TAG.context0, certificate.whole), derOf(TAG.set, signer))));
}

// { at, accuracy, authority } of a token over a signature with this SHA-256; else a Fault.
async function examineToken(bytes, stamped) {
  const [, wrapped] = within(derOne(bytes, TAG.sequence));
  const data = within(derOne(wrapped?.content || new Uint8Array(), TAG.sequence));
  const signers = data.length === 5 ? within(data[4]) : [];
  const signer = signers.length === 1 ? within(signers[0]) : [];
  const carried = data[3]?.tag === TAG.context0 ? within(data[3]) : [];
  if (signer.length !== 6 || carried.length !== 1) wrongToken("a token of another form");
  const info = derOne(within(data[2])[1].content, TAG.octets).content;
  const certificate = readCertificate(carried[0].whole);
  const key = keyOf(certificate.key);
  const hash = hashNamed(within(signer[2])[0]);
  const attributes = signer[3].content, signature = signer[5].content;
  if (!key || !hash || key.kind === "rsa" && key.bits > LARGEST_TOKEN_KEY) wrongToken("signed in a way that is not read here");
  const algorithm = key.kind === "rsa" ? derOf(TAG.sequence, oidOf("rsa"), derOf(TAG.nothing)) : derOf(TAG.sequence, oidOf("ecdsa" + hash[0].toUpperCase() + hash.slice(1)));
  if (!sameBytes(writeToken(hash, info, certificate, attributes, algorithm, signature), bytes)) wrongToken("written in another way");
  const stamp = readStamp(info, stamped);
  if (!isOid(attribute(attributes, "contentType"), "tstInfo") || !sameBytes(attribute(attributes, "messageDigest").content, await digestBy(HASHES[hash], info)))
    wrongToken("its content is not what was signed");
  if (!await namesCertificate(attributes, certificate)) wrongToken("by another certificate");
  if (!await isSignedBy(certificate.key, HASHES[hash], derOf(TAG.set, attributes), signature)) wrongToken("its signature does not fit its key");
  if (!isForTimestamps(certificate)) wrongToken("its certificate is not for timestamps alone");
  if (stamp.at < certificate.from || stamp.at > certificate.until) wrongToken("its certificate was not valid then");
  return { ...stamp, authority: certificate };
}

// The seal: a CMS (RFC 5652) in exactly the form that reports have. What it says is taken out of it, the whole is
// written again from that, and the bytes are compared: nothing in it can then differ without being noticed.

const CHAIN_MOST = 9;
const version = (number) => derOf(TAG.integer, Uint8Array.of(number));
const attributeOf = (kind, value) => derOf(TAG.sequence, oidOf(kind), derOf(TAG.set, value));
const nameOf = (certificate) => derOf(TAG.sequence, certificate.issuer, certificate.serial);

// RFC 5035: digest, issuer and serial number of each certificate, the signer's first.
function certificatesNamed(chain) {
  const one = (certificate) => derOf(TAG.sequence, derOf(TAG.octets, certificate.fingerprint),
    derOf(TAG.sequence, derOf(TAG.sequence, derOf(TAG.context4, certificate.issuer)), certificate.serial));
  return derOf(TAG.sequence, derOf(TAG.sequence, ...chain.map(one)));
}

const signedAttributes = (chain, digest) => inOrder([
  attributeOf("contentType", oidOf("data")),
  attributeOf("messageDigest", derOf(TAG.octets, digest)),
  attributeOf("signingCertificateV2", certificatesNamed(chain)),
]);

function writeCms(chain, attributes, rsa, signature, token) {
  const sha256Name = derOf(TAG.sequence, oidOf("sha256"));
  const algorithm = rsa ? derOf(TAG.sequence, oidOf("rsa"), derOf(TAG.nothing)) : derOf(TAG.sequence, oidOf("ecdsaSha256"));
  const signer = derOf(TAG.sequence, version(1), nameOf(chain[0]), sha256Name, derOf(TAG.context0, attributes), algorithm,
    derOf(TAG.octets, signature), token ? derOf(TAG.context1, attributeOf("timestamp", token)) : new Uint8Array());
  return derOf(TAG.sequence, oidOf("signedData"), derOf(TAG.context0, derOf(TAG.sequence, version(1), derOf(TAG.set, sha256Name),
    derOf(TAG.sequence, oidOf("data")), derOf(TAG.context0, inOrder(chain.map((one) => one.whole))), derOf(TAG.set, signer))));
}

// The value of the one attribute of this kind; a Fault if there is none, or several.
function attribute(attributes, kind) {
  const values = derAll(attributes).map(within).filter(([type]) => isOid(type, kind)).map(([, set]) => within(set));
  if (values.length !== 1 || values[0].length !== 1) throw new Fault("cms", "not exactly one " + kind);
  return values[0][0];
}

// The signer's fields out of a CMS, and the certificates beside it.
function openCms(bytes) {
  const [, wrapped] = within(derOne(bytes, TAG.sequence));
  const fields = within(derOne(wrapped?.content || new Uint8Array(), TAG.sequence));
  const [certificates, signers] = fields.slice(-2);
  if (fields.length !== 5 || certificates.tag !== TAG.context0) throw new Fault("cms", "a signature of another form");
  const infos = within(signers);
  if (infos.length !== 1) throw new Fault("cms", "not exactly one signer");
  const signer = within(infos[0]);
  if (signer.length < 6 || signer.length > 7 || signer[3].tag !== TAG.context0) throw new Fault("cms", "a signer of another form");
  return { certificates: within(certificates).map((one) => one.whole), content: within(fields[2]), signer };
}

// The certificates in the order in which the signed attributes name them; each is named, and each is there.
function chainNamed(carried, attributes) {
  const [list] = within(attribute(attributes, "signingCertificateV2"));
  const read = carried.map(readCertificate);
  const chain = within(list).map((one) => {
    const [digest] = within(one);
    const found = read.findIndex((certificate) => sameBytes(certificate.fingerprint, digest.content));
    if (found < 0) throw new Fault("cms", "a certificate that is named is not there");
    return read.splice(found, 1)[0];
  });
  if (read.length > 0 || chain.length === 0 || chain.length > CHAIN_MOST) throw new Fault("cms", "a certificate that nothing names");
  for (let i = 1; i < chain.length; i++)
    if (!sameBytes(chain[i - 1].issuer, chain[i].subject)) throw new Fault("cms", "a certificate that is not of the signer's chain");
  return chain;
}

// The one token of a timestamp that may stand where nothing is signed.
function tokenIn(part) {
  if (!part) return null;
  const attributes = within(part);
  const [kind, values, ...more] = attributes.length === 1 ? within(attributes[0]) : [];
  if (part.tag !== TAG.context1 || !isOid(kind, "timestamp") || values?.tag !== TAG.set || more.length > 0) throw new Fault("unsigned", "something that nothing signs");
  return derOne(values.content, TAG.sequence).whole;
}

// { chain, timestamp } of a seal that holds for content with this SHA-256; else a Fault.
async function examineCms(bytes, digest) {
  const { certificates, content, signer } = openCms(bytes);
  if (content.length !== 1) throw new Fault("cms", "content of its own");
  const attributes = signer[3].content;
  const token = tokenIn(signer[6]);
  if (!sameBytes(attribute(attributes, "messageDigest").content, digest)) throw new Fault("digest", "the content is not what was signed");
  const chain = chainNamed(certificates, attributes);
  const key = keyOf(chain[0].key);
  if (!key || key.kind === "p384") throw new Fault("key", "a key of another sort");
  const again = signedAttributes(chain, digest);
  const signature = signer[5].content;
  if (!sameBytes(writeCms(chain, again, key.kind === "rsa", signature, token), bytes)) throw new Fault("cms", "written in another way");
  if (!await isSignedBy(chain[0].key, "SHA-256", derOf(TAG.set, again), signature)) throw new Fault("signature", "the signature does not fit the key");
  return { chain, timestamp: token ? await examineToken(token, sha256(signature)) : null };
}

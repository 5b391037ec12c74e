// A report checked: the file as sealed, the seal, and what is carried in it. Throws a Fault with the code of what is
// wrong; whatever else goes wrong in reading hostile bytes is no good report either.

const LARGEST_REPORT = 200 * 1024 * 1024;
const LARGEST_CARRIED = 32 * 1024 * 1024;
const PIECE = 4 * 1024 * 1024;
const SEAL_DIGITS = 32768;
const CARRIED = ["before.xml", "issue.xml", "photos.xml", "survey.xml", "templates.xml", "works.xml"];

// A File as what is read from: { size, read(from, to) }.
const sourceOf = (file) => ({
  size: file.size,
  async read(from, to) {
    try {
      return new Uint8Array(await file.slice(from, to).arrayBuffer());
    } catch {
      throw new Fault("unreadable");
    }
  },
});

async function wholeOf(source, progress) {
  if (source.size === 0) throw new Fault("empty");
  if (source.size > LARGEST_REPORT) {
    if (!latinOf(await source.read(0, 1024)).includes("%PDF-")) throw new Fault("not-pdf");
    throw new Fault("too-large");
  }
  const bytes = new Uint8Array(source.size);
  for (let at = 0; at < bytes.length; at += PIECE) {
    const end = Math.min(at + PIECE, bytes.length);
    const piece = await source.read(at, end);
    if (piece.length !== end - at) throw new Fault("unreadable");
    bytes.set(piece, at);
    await progress(end / bytes.length / 2);
    if (at === 0 && !latinOf(piece.subarray(0, 4096)).includes("%PDF-")) throw new Fault("not-pdf");
  }
  return bytes;
}

const linkTo = (value, number) => value instanceof PdfLink && value.number === number;

// The one signature: in the one field, on the first page, certifying that nothing may be changed.
function findSeal(document, roles) {
  const catalog = document.objects[document.trailer.get("Root").number].value;
  const [signature, ...moreSignatures] = numbersOf(roles, "signature");
  const [widget, ...moreWidgets] = numbersOf(roles, "widget");
  if (!signature || !widget) throw new Fault("not-sealed");
  if (moreSignatures.length + moreWidgets.length > 0) throw new Fault("seal", "more than one signature or field");
  const fields = catalog.get("AcroForm")?.get("Fields") || [];
  const field = document.objects[widget].value;
  const kids = document.objects[catalog.get("Pages").number].value.get("Kids");
  const places = numbersOf(roles, "page").flatMap((page) => (document.objects[page].value.get("Annots") || []).filter((one) => linkTo(one, widget)).map(() => page));
  const seal = document.objects[signature].value;
  const references = seal.get("Reference") || [];
  const right = fields.length === 1 && linkTo(fields[0], widget) && linkTo(field.get("V"), signature) &&
    linkTo(catalog.get("Perms")?.get("DocMDP"), signature) && places.length === 1 && linkTo(kids[0], places[0]) && linkTo(field.get("P"), places[0]) &&
    references.length === 1 && references[0].has("TransformMethod") && references[0].get("TransformParams")?.has("P") === true &&
    ["Filter", "SubFilter", "Name", "M", "ByteRange", "Contents"].every((key) => seal.has(key));
  if (!right) throw new Fault("seal", "it does not certify the whole document against every change");
  return seal;
}

// Where the signature stands, and its bytes: every other byte of the file is sealed, and beside it are zeros alone.
function openSeal(document, seal) {
  const [before, after, rest] = seal.get("ByteRange").byteRange;
  const room = seal.get("Contents");
  if (!room.hex || before !== room.begin || after !== room.end || after + rest !== document.bytes.length) throw new Fault("range", "the seal is not for every byte");
  const bytes = room.bytes;
  if (2 * bytes.length !== SEAL_DIGITS || bytes[0] !== 0x30 || bytes[1] !== 0x82) throw new Fault("cms", "no signature");
  const size = 4 + bytes[2] * 256 + bytes[3];
  if (size > bytes.length || bytes.subarray(size).some((byte) => byte !== 0)) throw new Fault("hole", "something beside the signature");
  return { before, after, cms: bytes.subarray(0, size) };
}

async function digestAround(bytes, before, after, progress) {
  const digest = sha256InPieces();
  for (const [from, to] of [[0, before], [after, bytes.length]])
    for (let at = from; at < to; at += PIECE) {
      digest.add(bytes.subarray(at, Math.min(at + PIECE, to)));
      await progress(0.5 + at / bytes.length / 2);
    }
  return digest.finish();
}

// Unpacks what must come to exactly `size` bytes.
async function inflated(packed, size) {
  const whole = new Uint8Array(size);
  let at = 0;
  const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate")).getReader();
  for (;;) {
    const { done, value } = await reader.read().catch(() => { throw new Fault("files", "it does not unpack"); });
    if (done) break;
    if (at + value.length > size) {
      reader.cancel().catch(() => {});
      throw new Fault("files", "it is larger than it says");
    }
    whole.set(value, at);
    at += value.length;
  }
  if (at !== size) throw new Fault("files", "it is smaller than it says");
  return whole;
}

// The carried files by name: both lists agree, each is there once under the one name, and the survey is among them.
async function carriedFiles(document, roles) {
  const catalog = document.objects[document.trailer.get("Root").number].value;
  const listed = catalog.get("Names")?.get("EmbeddedFiles")?.get("Names") || [];
  const associated = catalog.get("AF") || [];
  const wrong = (found) => { throw new Fault("files", found); };
  if (listed.length !== 2 * associated.length || associated.length !== numbersOf(roles, "filespec").length) wrong("the two lists differ");
  const files = new Map();
  for (let i = 0; i < associated.length; i++) {
    const name = latinOf(listed[2 * i].bytes), link = listed[2 * i + 1];
    if (!linkTo(associated[i], link.number) || !CARRIED.includes(name) || [...files.keys()].some((one) => one >= name)) wrong("a file of another name");
    const specification = document.objects[link.number].value;
    const versions = specification.get("EF");
    if (!["F", "UF"].every((key) => specification.get(key) && latinOf(specification.get(key).bytes) === name)) wrong("a file of two names");
    const content = versions?.get("F");
    if (!content || !linkTo(versions.get("UF"), content.number)) wrong("a file of two contents");
    const { value, stream } = document.objects[content.number];
    const size = value.get("Params")?.get("Size")?.value;
    if (!(size >= 0) || size > LARGEST_CARRIED || stream.length > LARGEST_CARRIED || !value.has("Filter")) wrong("a file without its size");
    files.set(name, await inflated(stream, size));
  }
  if (files.has("survey.xml") === files.has("works.xml")) wrong("no survey, or works besides it");
  return files;
}

// D:20261003091400+00'00'
function sealedAt(seal) {
  const digits = /^D:(\d{14})\+00'00'$/.exec(textOf(seal.get("M")));
  if (!digits) throw new Fault("seal", "it does not say when");
  return secondsOf(digits[1]);
}

// A report that is as it was sealed: { seal: { at, name, … }, chain, timestamp, files, says }.
async function examine(source, progress = async () => {}) {
  const bytes = await wholeOf(source, progress);
  try {
    const document = readDocument(bytes);
    const roles = rolesOf(document);
    const seal = findSeal(document, roles);
    const at = sealedAt(seal);
    const { before, after, cms } = openSeal(document, seal);
    const { chain, timestamp } = await examineCms(cms, await digestAround(bytes, before, after, progress));
    const files = await carriedFiles(document, roles);
    const says = whatItSays(files);
    if (says.record?.timestamp !== undefined && says.record.timestamp !== (timestamp !== null)) throw new Fault("stamp-changed");
    return { at, chain, timestamp, files, says, pages: numbersOf(roles, "page").length };
  } catch (error) {
    if (error instanceof Fault && error.code === "no-crypto") throw error;
    throw new Fault(accident(bytes) || (error instanceof Fault ? error.code : "form"), error.message);
  }
}

// What became of a file that is not as sealed, as far as can be told from its looks; null: nothing to be told.
function accident(bytes) {
  const start = latinOf(bytes.subarray(0, 4096));
  const has = (word) => holdsWord(bytes, word);
  if (!start.startsWith("%PDF-")) return "bytes-before";
  if (start.startsWith("%PDF-1.7\r")) return "line-ends";
  if (["\xc2\xb7", "\xef\xbf\xbd", "?", "7>-*"].some((one) => start.startsWith("%PDF-1.7\n%" + one))) return "as-text";
  if (!has("/Producer (rigdeed ")) return "not-report";
  const range = wordPlace(bytes, "/ByteRange [0 ");
  const numbers = range < 0 ? null : /^(\d{10}) (\d{10}) (\d{10})\]/.exec(latinOf(bytes.subarray(range + 14, range + 47)));
  const size = numbers ? Number(numbers[2]) + Number(numbers[3]) : 0;
  const ends = (end) => latinOf(bytes.subarray(Math.max(0, end - LAST_LINES.length), end)) === LAST_LINES;
  if (size > 0 && bytes.length < size) return start.startsWith(latinOf(FIRST_LINES)) && !has("stream\r\n") ? "line-ends" : ends(bytes.length) ? null : "cut-short";
  if (size > LAST_LINES.length && bytes.length > size && ends(size)) return "appended";
  if (!has(LAST_LINES)) return "cut-short";
  if (!has("/AcroForm ") && !has("/ByteRange")) return "not-sealed";
  return null;
}

function wordPlace(bytes, word) {
  const codes = Array.from(word, (letter) => letter.charCodeAt(0));
  for (let at = bytes.indexOf(codes[0]); at >= 0; at = bytes.indexOf(codes[0], at + 1))
    if (codes.every((code, i) => bytes[at + i] === code)) return at;
  return -1;
}

const holdsWord = (bytes, word) => wordPlace(bytes, word) >= 0;

// A report taken apart (ISO 32000-1, 7.3 and 7.5), read only in the one way that reports are written: one blank or line
// feed where one stands, no comment, no key twice, every object where the table says and no byte between them.

const FIRST_LINES = Uint8Array.of(37, 80, 68, 70, 45, 49, 46, 55, 10, 37, 0xb7, 0xbe, 0xad, 0xaa, 10);
const LAST_LINES = "\n%%EOF\n";
const MOST_OBJECTS = 500000;
const MOST_VALUES = 2500000;
const MOST_KEYS = 1000;
const DEEPEST = 12;

// What stands against a file: a code, for which the page has words, and what was met, for those who want to know.
class Fault extends Error {
  constructor(code, found) {
    super(found || code);
    this.code = code;
  }
}

// Kinds of value: a dictionary is a Map, a list an array; the others say what they are.
class PdfName { constructor(text) { this.text = text; } }
class PdfText { constructor(bytes, begin, end, hex) { Object.assign(this, { bytes, begin, end, hex }); } }
class PdfLink { constructor(number) { this.number = number; } }
class PdfNumber { constructor(value, whole) { this.value = value; this.whole = whole; } }

const isDigit = (byte) => byte >= 48 && byte <= 57;
const isOfName = (byte) => isDigit(byte) || byte >= 65 && byte <= 90 || byte >= 97 && byte <= 122 || byte === 43 || byte === 45 || byte === 46 || byte === 95;

function hexDigit(byte, upper) {
  if (isDigit(byte)) return byte - 48;
  const value = byte - (upper ? 65 : 97);
  return value >= 0 && value < 6 ? value + 10 : -1;
}

class ObjectReader {
  constructor(bytes, at, end) {
    this.bytes = bytes;
    this.at = at;
    this.end = end;
    this.values = 0;
  }

  wrong(what) { throw new Fault("form", what + ", byte " + this.at); }

  peek(ahead = 0) { return this.at + ahead < this.end ? this.bytes[this.at + ahead] : -1; }

  here(word) {
    for (let i = 0; i < word.length; i++) if (this.peek(i) !== word.charCodeAt(i)) return false;
    return true;
  }

  take(word) {
    if (!this.here(word)) this.wrong("not " + JSON.stringify(word));
    this.at += word.length;
  }

  skip(count) {
    if (count > this.end - this.at) this.wrong("the file ends too early");
    this.at += count;
  }

  // Digits of a whole number written in the one plain way.
  whole() {
    const start = this.at;
    let value = 0;
    for (; isDigit(this.peek()); this.at++) {
      value = value * 10 + this.peek() - 48;
      if (value > 9999999999) this.wrong("a number too large");
    }
    if (this.at === start || this.bytes[start] === 48 && this.at - start > 1) this.wrong("a number not written plainly");
    return value;
  }

  tenDigits() {
    let value = 0;
    for (let i = 0; i < 10; i++, this.at++) {
      if (!isDigit(this.peek())) this.wrong("not ten digits");
      value = value * 10 + this.peek() - 48;
    }
    return value;
  }

  value(key, depth = 1) {
    if (depth > DEEPEST || ++this.values > MOST_VALUES) this.wrong("more than a report holds");
    if (key === "ByteRange") return this.byteRange();
    if (this.here("<<")) return this.dictionary(depth);
    switch (this.peek()) {
      case 60: return this.hexText(key !== "Contents" || this.here("<FEFF"));
      case 91: return this.list(depth);
      case 40: return this.plainText();
      case 47: return new PdfName(this.name(key === "Subtype"));
    }
    for (const [word, value] of [["null", null], ["true", true], ["false", false]])
      if (this.here(word)) {
        this.at += word.length;
        return value;
      }
    return this.link() || this.number();
  }

  dictionary(depth) {
    const made = new Map();
    this.take("<<\n");
    while (!this.here(">>")) {
      const key = this.name(false);
      if (made.has(key)) this.wrong("a key that stands twice");
      if (made.size === MOST_KEYS) this.wrong("more keys than a report has");
      this.take(" ");
      made.set(key, this.value(key, depth + 1));
      this.take("\n");
    }
    this.take(">>");
    return made;
  }

  list(depth) {
    const made = [];
    this.take("[ ");
    while (!this.here("]")) {
      made.push(this.value("", depth + 1));
      this.take(" ");
    }
    this.take("]");
    return made;
  }

  byteRange() {
    const numbers = [];
    this.take("[0");
    while (numbers.length < 3) {
      this.take(" ");
      numbers.push(this.tenDigits());
    }
    this.take("]");
    return { byteRange: numbers };
  }

  plainText() {
    const begin = this.at;
    const bytes = [];
    this.take("(");
    for (let byte = this.peek(); byte !== 41; byte = this.peek()) {
      if (byte === 92) {
        const digits = [1, 2, 3].map((i) => this.peek(i) - 48);
        const code = digits[0] * 64 + digits[1] * 8 + digits[2];
        if (digits.some((digit) => digit < 0 || digit > 7) || code > 255) this.wrong("an escape that reports do not use");
        bytes.push(code);
        this.at += 4;
      } else {
        if (byte < 32 || byte === 127 || byte === 40) this.wrong("a character that reports do not use");
        bytes.push(byte);
        this.at++;
      }
    }
    this.take(")");
    return new PdfText(Uint8Array.from(bytes), begin, this.at, false);
  }

  hexText(upper) {
    const begin = this.at;
    this.take("<");
    let end = this.at;
    while (end < this.end && this.bytes[end] !== 62) end++;
    const bytes = new Uint8Array((end - this.at) >> 1);
    for (let i = 0; i < bytes.length; i++, this.at += 2) {
      const high = hexDigit(this.peek(), upper), low = hexDigit(this.peek(1), upper);
      if (high < 0 || low < 0) this.wrong("a digit of another case, or none");
      bytes[i] = high << 4 | low;
    }
    this.take(">");
    return new PdfText(bytes, begin, this.at, true);
  }

  // A media type alone has the escape #2F for its slash.
  name(mediaType) {
    this.take("/");
    const start = this.at;
    while (isOfName(this.peek())) this.at++;
    if (mediaType && this.here("#2F")) {
      this.at += 3;
      while (isOfName(this.peek())) this.at++;
    }
    if (this.at === start || this.at - start > 127) this.wrong("a name that is empty or too long");
    return latinOf(this.bytes.subarray(start, this.at));
  }

  link() {
    let length = 0;
    while (length < 8 && isDigit(this.peek(length))) length++;
    const after = [32, 48, 32, 82];
    if (length === 0 || !after.every((byte, i) => this.peek(length + i) === byte)) return null;
    const made = new PdfLink(this.whole());
    this.take(" 0 R");
    return made;
  }

  number() {
    const sign = this.peek() === 45 ? -1 : 1;
    if (sign < 0) this.at++;
    const before = this.whole();
    if (this.peek() !== 46) {
      if (sign < 0 && before === 0) this.wrong("a number not written plainly");
      return new PdfNumber(sign * before, true);
    }
    this.at++;
    const start = this.at;
    while (isDigit(this.peek()) && this.at - start < 8) this.at++;
    if (this.at === start) this.wrong("a number not written plainly");
    return new PdfNumber(sign * Number(before + "." + latinOf(this.bytes.subarray(start, this.at))), false);
  }
}

// Where `word` stands last in the file's last bytes; -1 if it does not.
function lastPlace(bytes, word, within) {
  const from = Math.max(0, bytes.length - within);
  const at = latinOf(bytes.subarray(from)).lastIndexOf(word);
  return at < 0 ? -1 : from + at;
}

// The cross-reference table: offsets by object number, and the trailer.
function readTable(bytes) {
  const pointer = "\nstartxref\n";
  const tail = lastPlace(bytes, pointer, 64);
  if (tail < 0) throw new Fault("form", "the file does not end with the place of its table");
  const end = new ObjectReader(bytes, tail + pointer.length, bytes.length);
  const at = end.whole();
  end.take(LAST_LINES);
  if (end.at !== bytes.length || at >= tail) throw new Fault("form", "the table is not where the file says");

  const reader = new ObjectReader(bytes, at, tail + 1);
  reader.take("xref\n0 ");
  const count = reader.whole();
  if (count < 2 || count > MOST_OBJECTS) reader.wrong("a number of objects that cannot be right");
  reader.take("\n0000000000 65535 f\r\n");
  const offsets = [0];
  while (offsets.length < count) {
    offsets.push(reader.tenDigits());
    reader.take(" 00000 n\r\n");
  }
  reader.take("trailer\n");
  const trailer = reader.value("");
  reader.take("\n");
  if (reader.at !== tail + 1) reader.wrong("something behind the trailer");
  const size = trailer instanceof Map ? trailer.get("Size") : null;
  if (!(size instanceof PdfNumber) || !size.whole || size.value !== count) throw new Fault("form", "the trailer gives another number of objects");
  return { at, offsets, trailer };
}

function streamLength(bytes, table, dictionary) {
  const link = dictionary.get("Length");
  if (!(link instanceof PdfLink) || link.number < 1 || link.number >= table.offsets.length) throw new Fault("form", "a stream without a length");
  const there = new ObjectReader(bytes, table.offsets[link.number], bytes.length);
  there.take(link.number + " 0 obj\n");
  return there.whole();
}

// { bytes, objects, trailer }; objects[n] is { value, stream }, the bytes of its stream as they stand in the file.
function readDocument(bytes) {
  if (!sameBytes(bytes.subarray(0, FIRST_LINES.length), FIRST_LINES)) throw new Fault("form", "another start");
  const table = readTable(bytes);
  const reader = new ObjectReader(bytes, FIRST_LINES.length, table.at);
  const objects = [null];
  for (let number = 1; number < table.offsets.length; number++) {
    if (table.offsets[number] !== reader.at) throw new Fault("form", "object " + number + " is not where the table says");
    reader.take(number + " 0 obj\n");
    const object = { value: reader.value(""), stream: null };
    if (object.value instanceof Map && reader.here("\nstream\r\n")) {
      reader.take("\nstream\r\n");
      const length = streamLength(bytes, table, object.value);
      const start = reader.at;
      reader.skip(length);
      object.stream = bytes.subarray(start, reader.at);
      reader.take("\nendstream");
    }
    reader.take("\nendobj\n");
    objects.push(object);
  }
  if (reader.at !== table.at) reader.wrong("something before the table");
  return { bytes, objects, trailer: table.trailer };
}

// A text string (ISO 32000-1, 7.9.2.2): UTF-16BE with its mark, else ASCII. Whatever steers a screen is left out.
function textOf(value) {
  if (!(value instanceof PdfText)) return "";
  const bytes = value.bytes;
  const wide = bytes.length >= 2 && bytes[0] === 0xfe && bytes[1] === 0xff;
  return harmless(wide ? new TextDecoder("utf-16be").decode(bytes.subarray(2)) : latinOf(bytes).replace(/[^\x00-\x7f]/g, "\ufffd"));
}

// Controls, and what changes the direction of writing or is not seen, as signs for what cannot be shown.
function harmless(text) {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]/g, "\ufffd");
}

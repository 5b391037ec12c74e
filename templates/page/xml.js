// The XML of what a report carries, read strictly: one root, attributes and elements, no text but blanks, none of what
// such files have no need of. An element is { name, attributes, children, words }.

const XML_NAME = /[A-Za-z][A-Za-z0-9-]*/y;
const XML_DEEPEST = 32;
const ENTITIES = { lt: "<", gt: ">", amp: "&", quot: "\"", apos: "'" };

class XmlReader {
  constructor(text) {
    this.text = text;
    this.at = 0;
  }

  wrong(what) { throw new Fault("carried", what + ", character " + this.at); }
  here(word) { return this.text.startsWith(word, this.at); }

  take(word) {
    if (!this.here(word)) this.wrong("not " + word);
    this.at += word.length;
  }

  match(pattern) {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (!found) return "";
    this.at = pattern.lastIndex;
    return found[0];
  }

  until(word) {
    const end = this.text.indexOf(word, this.at);
    if (end < 0) this.wrong("no " + word);
    const between = this.text.slice(this.at, end);
    this.at = end + word.length;
    return between;
  }

  blanks() { return this.match(/[ \t\r\n]*/y); }

  // Blanks and comments; nothing else stands between elements.
  between() {
    for (this.blanks(); this.here("<!--"); this.blanks()) {
      this.take("<!--");
      this.until("-->");
    }
  }

  name() { return this.match(XML_NAME) || this.wrong("no name"); }

  // A character by its number (XML 1.0, 2.2), or one of the five names.
  entity(word) {
    if (Object.hasOwn(ENTITIES, word)) return ENTITIES[word];
    const number = /^#x([0-9A-Fa-f]{1,6})$/.test(word) ? parseInt(word.slice(2), 16) : /^#([0-9]{1,7})$/.test(word) ? Number(word.slice(1)) : 0;
    const allowed = number === 9 || number === 10 || number === 13 || number >= 0x20 && number <= 0x10ffff && !(number >= 0xd800 && number < 0xe000) && number !== 0xfffe && number !== 0xffff;
    return allowed ? String.fromCodePoint(number) : this.wrong("an entity that is none");
  }

  attribute() {
    const name = this.match(/(?:xmlns:)?(?:[A-Za-z][A-Za-z0-9-]*:)?[A-Za-z][A-Za-z0-9-]*/y) || this.wrong("no attribute");
    this.blanks();
    this.take("=");
    this.blanks();
    const quote = this.here("'") ? "'" : "\"";
    this.take(quote);
    const raw = this.until(quote);
    if (raw.includes("<")) this.wrong("a < in a value");
    return [name, raw.replace(/[\t\r\n]/g, " ").replace(/&([^;]*);?/g, (whole, word) => whole.endsWith(";") ? this.entity(word) : this.wrong("a & alone"))];
  }

  element(depth = 1) {
    if (depth > XML_DEEPEST) this.wrong("too deep");
    this.take("<");
    const made = { name: this.name(), attributes: new Map(), children: [], words: "" };
    while (this.blanks() !== "" && !this.here(">") && !this.here("/>")) {
      const [name, value] = this.attribute();
      if (made.attributes.has(name)) this.wrong("an attribute that stands twice");
      made.attributes.set(name, value);
    }
    if (this.here("/>")) {
      this.take("/>");
      return made;
    }
    this.take(">");
    for (;;) {
      made.words += this.match(/[^<&]*/y);
      if (this.here("&")) {
        this.take("&");
        made.words += this.entity(this.until(";"));
      } else if (this.here("<![CDATA[")) {
        this.take("<![CDATA[");
        made.words += this.until("]]>");
      } else if (this.here("<!--")) this.between();
      else if (this.here("</")) break;
      else made.children.push(this.element(depth + 1));
    }
    this.take("</" + made.name);
    this.blanks();
    this.take(">");
    return made;
  }
}

// The root of a file that is UTF-8 and has a root of this name, in this namespace.
function readXml(bytes, root, namespace) {
  let text;
  try {
    text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new Fault("carried", "not UTF-8");
  }
  if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|<!D/.test(text)) throw new Fault("carried", "a character or a declaration that is not allowed");
  const reader = new XmlReader(text);
  if (reader.here("\ufeff")) reader.take("\ufeff");
  if (reader.here("<?xml")) reader.until("?>");
  reader.between();
  const read = reader.element();
  reader.between();
  if (reader.at !== text.length) reader.wrong("something behind the root");
  if (read.name !== root || read.attributes.get("xmlns") !== namespace) throw new Fault("carried", "not a " + root);
  return read;
}

const childrenOf = (element, name) => element.children.filter((one) => one.name === name);

// What a report may hold, object by object: no action, no script, no form but the seal, no annotation but links inside,
// nothing that points out of the file. Each object is used as one thing, and each is used.

const isWhole = (value) => value instanceof PdfNumber && value.whole;
const isAny = (value) => value instanceof PdfNumber;
const among = (words, word) => words === undefined || words.split(" ").includes(word);
const everyOne = (value, test) => Array.isArray(value) && value.every(test);
const byTurns = (value, first, second) => Array.isArray(value) && value.length % 2 === 0 && value.every((one, i) => (i % 2 === 0 ? first : second)(one));

// Tests of a value; the walk follows links and direct dictionaries into the role named.
const ALLOWED = (() => {
  const text = () => (value) => value instanceof PdfText;
  const flag = () => (value) => typeof value === "boolean";
  const name = (words) => (value) => value instanceof PdfName && among(words, value.text);
  const whole = (words) => (value) => isWhole(value) && among(words, String(value.value));
  const figure = () => isAny;
  const names = (words) => (value) => everyOne(value, name(words));
  const figures = () => (value) => everyOne(value, isAny);
  const texts = () => (value) => everyOne(value, text());
  const range = () => (value) => value?.byteRange !== undefined;
  const widths = () => (value) => Array.isArray(value) && value.length === 2 && isWhole(value[0]) && everyOne(value[1], isAny);
  const to = (role) => (value, walk) => walk.link(value, role);
  const inner = (role) => (value, walk) => walk.inside(value, role);
  const toAll = (role) => (value, walk) => everyOne(value, (one) => walk.link(one, role));
  const innerAll = (role) => (value, walk) => everyOne(value, (one) => walk.inside(one, role));
  const place = () => (value, walk) =>
    Array.isArray(value) && value.length === 5 && walk.link(value[0], "page") && name("XYZ")(value[1]) && isAny(value[2]) && isAny(value[3]) && value[4] === null;
  const numberedInner = (role) => (value, walk) => byTurns(value, isWhole, (one) => walk.inside(one, role));
  const namedTo = (role) => (value, walk) => byTurns(value, text(), (one) => walk.link(one, role));
  const upTo = (role) => (value, walk) => walk.link(value, role) || walk.link(value, "structure_root");
  const mixed = (role) => (value, walk) => everyOne(value, (one) => one instanceof PdfLink ? walk.link(one, role) : walk.inside(one, "content_piece"));
  const owners = (role) => (value, walk) =>
    byTurns(value, isWhole, (one) => Array.isArray(one) ? one.every((each) => walk.link(each, role)) : walk.link(one, role));

  const stream = (more) => ({ Length: to("length"), ...more });
  const packed = names("FlateDecode");

  return {
    trailer: { ID: texts(), Root: to("catalog"), Info: to("info"), Size: whole() },
    catalog: {
      Type: name("Catalog"), Pages: to("pages"), Outlines: to("outline"), PageLabels: inner("labels"), Metadata: to("metadata"),
      OutputIntents: innerAll("intent"), Lang: text(), ViewerPreferences: inner("preferences"), Names: inner("name_trees"),
      AF: toAll("filespec"), AcroForm: inner("form"), Perms: inner("permissions"), StructTreeRoot: to("structure_root"), MarkInfo: inner("marks"),
    },
    info: { Title: text(), Author: text(), Subject: text(), Creator: text(), Producer: text(), CreationDate: text(), ModDate: text() },

    pages: { Type: name("Pages"), Kids: toAll("page"), Count: whole() },
    page: {
      Type: name("Page"), Parent: to("pages"), MediaBox: figures(), Contents: to("plain_stream"), Resources: inner("resources"),
      Annots: toAll("annotation"), StructParents: whole(), Tabs: name("S"),
    },
    resources: { ProcSet: names("PDF Text ImageB ImageC ImageI"), Font: inner("fonts"), XObject: inner("images"), ExtGState: inner("opacities") },
    fonts: { "F#": to("font") },
    images: { "I#": to("image") },
    opacities: { "A#": to("opacity") },
    opacity: { Type: name("ExtGState"), ca: figure(), CA: figure() },
    font: {
      Type: name("Font"), Subtype: name("Type0"), BaseFont: name(), Encoding: name("Identity-H"), DescendantFonts: toAll("descendant"),
      ToUnicode: to("plain_stream"),
    },
    descendant: {
      Type: name("Font"), Subtype: name("CIDFontType2"), BaseFont: name(), CIDSystemInfo: inner("system"), CIDToGIDMap: name("Identity"),
      W: widths(), FontDescriptor: to("descriptor"),
    },
    system: { Registry: text(), Ordering: text(), Supplement: whole("0") },
    descriptor: {
      Type: name("FontDescriptor"), FontName: name(), Flags: whole(), FontBBox: figures(), ItalicAngle: figure(), Ascent: whole(),
      Descent: whole(), CapHeight: whole(), StemV: whole(), FontFile2: to("program"),
    },
    program: stream({ Length1: whole(), Filter: packed }),
    plain_stream: stream({ Filter: packed }),
    image: stream({
      Type: name("XObject"), Subtype: name("Image"), Width: whole(), Height: whole(), ColorSpace: name("DeviceGray DeviceRGB"),
      BitsPerComponent: whole("8"), Filter: names("DCTDecode"),
    }),

    outline: {
      Type: name("Outlines"), Title: text(), Parent: to("outline"), First: to("outline"), Last: to("outline"), Prev: to("outline"),
      Next: to("outline"), Count: whole(), Dest: place(),
    },
    labels: { Nums: numberedInner("label") },
    label: { P: text() },
    metadata: stream({ Type: name("Metadata"), Subtype: name("XML") }),
    intent: {
      Type: name("OutputIntent"), S: name("GTS_PDFA1"), OutputConditionIdentifier: text(), RegistryName: text(), Info: text(),
      DestOutputProfile: to("profile"),
    },
    profile: stream({ N: whole("3"), Filter: packed }),
    preferences: { DisplayDocTitle: flag() },

    marks: { Marked: flag() },
    structure_root: { Type: name("StructTreeRoot"), K: toAll("element"), ParentTree: inner("parent_tree"), ParentTreeNextKey: whole() },
    parent_tree: { Nums: owners("element") },
    element: {
      Type: name("StructElem"), S: name("Document Sect H1 H2 H3 P L LI Lbl LBody TOC TOCI Reference Caption Table TR TH TD Figure Link Form"), P: upTo("element"), Alt: text(),
      A: inner("attributes"), K: mixed("element"),
    },
    attributes: { O: name("Table List"), Scope: name("Column Row"), ListNumbering: name("Decimal") },
    content_piece: { Type: name("MCR OBJR"), Pg: to("page"), MCID: whole(), Obj: to("annotation") },

    name_trees: { EmbeddedFiles: inner("file_tree") },
    file_tree: { Names: namedTo("filespec") },
    filespec: { Type: name("Filespec"), F: text(), UF: text(), Desc: text(), AFRelationship: name("Source Data"), EF: inner("file_versions") },
    file_versions: { F: to("file"), UF: to("file") },
    file: stream({ Type: name("EmbeddedFile"), Subtype: name("text#2Fxml text#2Fcsv"), Params: inner("file_parameters"), Filter: packed }),
    file_parameters: { Size: whole(), ModDate: text() },

    link: {
      Type: name("Annot"), Subtype: name("Link"), Rect: figures(), Border: figures(), F: whole("4"), Dest: place(), Contents: text(),
      StructParent: whole(),
    },
    form: { Fields: toAll("widget"), SigFlags: whole("3") },
    permissions: { DocMDP: to("signature") },
    widget: {
      Type: name("Annot"), Subtype: name("Widget"), FT: name("Sig"), T: text(), TU: text(), StructParent: whole(), Rect: figures(),
      F: whole("132"), P: to("page"), AP: inner("appearances"), V: to("signature"),
    },
    appearances: { N: to("appearance") },
    appearance: stream({ Type: name("XObject"), Subtype: name("Form"), BBox: figures(), Resources: inner("nothing"), Filter: packed }),
    nothing: {},
    signature: {
      Type: name("Sig"), Filter: name("Adobe.PPKLite"), SubFilter: name("ETSI.CAdES.detached"), Name: text(), Reason: text(),
      Location: text(), M: text(), Reference: innerAll("reference"), ByteRange: range(), Contents: text(),
    },
    reference: { Type: name("SigRef"), TransformMethod: name("DocMDP"), TransformParams: inner("parameters") },
    parameters: { Type: name("TransformParams"), P: whole("1"), V: name("1.2") },
  };
})();

function testFor(role, key) {
  const rows = ALLOWED[role];
  if (Object.hasOwn(rows, key)) return rows[key];
  const counted = key[0] + "#";
  return /^.[0-9]+$/.test(key) && Object.hasOwn(rows, counted) ? rows[counted] : null;
}

class Walk {
  constructor(document) {
    this.document = document;
    this.roles = document.objects.map(() => "");
    this.waiting = [];
  }

  annotation(number) {
    const kind = this.document.objects[number].value;
    const subtype = kind instanceof Map ? kind.get("Subtype") : null;
    return subtype instanceof PdfName ? { Link: "link", Widget: "widget" }[subtype.text] : undefined;
  }

  link(value, wanted) {
    if (!(value instanceof PdfLink) || value.number < 1 || value.number >= this.roles.length) return false;
    const role = wanted === "annotation" ? this.annotation(value.number) : wanted;
    if (this.roles[value.number] === "" && role !== undefined) {
      this.roles[value.number] = role;
      this.waiting.push(value.number);
    }
    return this.roles[value.number] === role;
  }

  inside(value, role) {
    if (!(value instanceof Map)) return false;
    for (const [key, one] of value) {
      const test = testFor(role, key);
      if (!test || !test(one, this)) throw new Fault("form", "a /" + key + " that reports do not have in their " + role);
    }
    return true;
  }

  run() {
    this.inside(this.document.trailer, "trailer");
    while (this.waiting.length > 0) {
      const number = this.waiting.pop();
      const { value, stream: bytes } = this.document.objects[number];
      const role = this.roles[number];
      if (role === "length" ? !isWhole(value) : !(value instanceof Map) || (bytes !== null) !== Object.hasOwn(ALLOWED[role], "Length"))
        throw new Fault("form", "object " + number + " is not what it is used as");
      if (role !== "length") this.inside(value, role);
    }
    const unused = this.roles.indexOf("", 1);
    if (unused > 0) throw new Fault("form", "object " + unused + " belongs to nothing");
    return this.roles;
  }
}

// What each object is used as, by its number; and the list of pages holds every page once.
function rolesOf(document) {
  const roles = new Walk(document).run();
  const lists = numbersOf(roles, "pages");
  const list = lists.length === 1 ? document.objects[lists[0]].value : new Map();
  const kids = (list.get("Kids") || []).map((kid) => kid.number);
  const pages = numbersOf(roles, "page");
  if (list.get("Count")?.value !== kids.length || kids.length !== pages.length || new Set(kids).size !== kids.length)
    throw new Fault("form", "the list of pages does not hold every page once");
  return roles;
}

const numbersOf = (roles, role) => roles.flatMap((one, number) => one === role ? [number] : []);

// The functions of the check page under Node, as they stand in the page.
//
// usage: node core.js PAGE digests                     SHA-256 against known answers and Node's own
//        node core.js PAGE verdicts < LINES            each line a file; prints "CODE FILE", CODE "good" or what is wrong
//        node core.js PAGE flips FILE COUNT SEED       so many bits flipped, one at a time; prints how many were refused
//        node core.js PAGE vectors < LINES             lines as for signature_vectors; prints 1 or 0 a line
//        node core.js PAGE says FILE                   what a good report says, as JSON
//        node core.js PAGE allowed                     role and key of all that a report may hold, a line each
const fs = require("node:fs");
const vm = require("node:vm");
const nodeCrypto = require("node:crypto");

const [, , page, command, ...words] = process.argv;
const html = fs.readFileSync(page, "utf8");
const script = html.slice(html.lastIndexOf("<script>") + 8, html.lastIndexOf("</script>"));
// All before the modules that show something.
const core = script.slice(script.indexOf("(() => {") + 8, script.indexOf("// Elements made one by one"));
if (core.length < 20000) throw new Error("the page's own functions were not found");
const context = vm.createContext({ crypto: nodeCrypto.webcrypto, TextDecoder, Blob, DecompressionStream, console });
const exported = ["sha256", "sha256InPieces", "hexOf", "examine", "isSignedBy", "ALLOWED", "Fault"];
const own = vm.runInContext(`"use strict"; (() => {${core}\nreturn { ${exported.join(", ")} }; })()`, context, { filename: "check.html" });

const sourceOf = (bytes) => ({ size: bytes.length, read: async (from, to) => bytes.subarray(from, to) });

async function codeOf(bytes) {
  try {
    await own.examine(sourceOf(bytes));
    return "good";
  } catch (error) {
    if (!(error instanceof own.Fault)) throw error;
    return error.code;
  }
}

function digests() {
  let passed = 0, failed = 0;
  const expect = (truth, what) => truth ? passed++ : (failed++, console.log("FAILED: " + what));
  const bytes = (text) => new TextEncoder().encode(text);
  // FIPS 180-4's examples and NIST's long one.
  for (const [text, digest] of [
    ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    ["abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"],
    ["abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu", "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1"],
    ["a".repeat(1000000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"],
  ]) expect(own.hexOf(own.sha256(bytes(text))) === digest, "SHA-256 of " + text.slice(0, 20));
  for (let length = 0; length < 400; length++) {
    const message = nodeCrypto.createHash("shake256", { outputLength: 400 }).update(String(length)).digest().subarray(0, length);
    const pieces = own.sha256InPieces();
    for (let at = 0, step = 1; at < length; at += step, step = (step * 7 + 3) % 131 + 1) pieces.add(message.subarray(at, Math.min(length, at + step)));
    expect(own.hexOf(pieces.finish()) === nodeCrypto.createHash("sha256").update(message).digest("hex"), length + " bytes in pieces");
  }
  console.log(`${passed} passed, ${failed} failed`);
}

const linesIn = () => fs.readFileSync(0, "utf8").split("\n").filter((line) => line !== "");

async function flips(file, count, seed) {
  const bytes = new Uint8Array(fs.readFileSync(file));
  const bits = bytes.length * 8;
  const all = Number(count) >= bits;
  let state = BigInt(seed), refused = 0, tried = 0;
  const next = () => Number((state = (state * 6364136223846793005n + 1442695040888963407n) % 2n ** 64n) >> 20n) % bits;
  for (let i = 0; i < (all ? bits : Number(count)); i++) {
    const bit = all ? i : next();
    bytes[bit >> 3] ^= 1 << (bit & 7);
    tried++;
    if (await codeOf(bytes) === "good") console.log("FAILED: bit " + bit + " flipped is accepted");
    else refused++;
    bytes[bit >> 3] ^= 1 << (bit & 7);
  }
  console.log(`${refused} of ${tried} refused`);
}

async function vectors() {
  const bytesOf = (hex) => hex === "-" ? new Uint8Array() : new Uint8Array(Buffer.from(hex, "hex"));
  for (const line of linesIn()) {
    const [digest, key, message, signature] = line.split(" ");
    console.log(await own.isSignedBy(bytesOf(key), digest.replace("SHA", "SHA-"), bytesOf(message), bytesOf(signature)) ? 1 : 0);
  }
}

async function says(file) {
  const report = await own.examine(sourceOf(new Uint8Array(fs.readFileSync(file))));
  const bytes = (key, value) => value instanceof Map ? Object.fromEntries(value) : value instanceof Uint8Array || ArrayBuffer.isView(value) ? own.hexOf(value) : value;
  console.log(JSON.stringify(report, bytes));
}

const commands = {
  digests, vectors, says,
  verdicts: async () => { for (const file of linesIn()) console.log(await codeOf(new Uint8Array(fs.readFileSync(file))) + " " + file); },
  flips,
  allowed: () => { for (const [role, keys] of Object.entries(own.ALLOWED)) for (const key of Object.keys(keys)) console.log(role + " " + key); },
};
commands[command](...words);

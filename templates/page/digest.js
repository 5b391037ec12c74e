// SHA-256 (FIPS 180-4, 6.2) of bytes that come in pieces; a browser's own digests whole buffers only.

const ROUND = new Uint32Array([
  0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
  0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
  0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
  0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
  0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
  0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
  0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
  0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2]);

function sha256InPieces() {
  const state = new Uint32Array([0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19]);
  const words = new Uint32Array(64);
  const rest = new Uint8Array(64);
  let held = 0;
  let length = 0;

  function block(bytes, at) {
    for (let i = 0; i < 16; i++, at += 4)
      words[i] = bytes[at] << 24 | bytes[at + 1] << 16 | bytes[at + 2] << 8 | bytes[at + 3];
    for (let i = 16; i < 64; i++) {
      const x = words[i - 15], y = words[i - 2];
      const small = (x >>> 7 | x << 25) ^ (x >>> 18 | x << 14) ^ x >>> 3;
      const large = (y >>> 17 | y << 15) ^ (y >>> 19 | y << 13) ^ y >>> 10;
      words[i] = words[i - 16] + small + words[i - 7] + large | 0;
    }
    let a = state[0] | 0, b = state[1] | 0, c = state[2] | 0, d = state[3] | 0;
    let e = state[4] | 0, f = state[5] | 0, g = state[6] | 0, h = state[7] | 0;
    for (let i = 0; i < 64; i++) {
      const one = h + ((e >>> 6 | e << 26) ^ (e >>> 11 | e << 21) ^ (e >>> 25 | e << 7)) + (e & f ^ ~e & g) + ROUND[i] + words[i] | 0;
      const two = ((a >>> 2 | a << 30) ^ (a >>> 13 | a << 19) ^ (a >>> 22 | a << 10)) + (a & b ^ a & c ^ b & c) | 0;
      h = g; g = f; f = e; e = d + one | 0;
      d = c; c = b; b = a; a = one + two | 0;
    }
    state[0] += a; state[1] += b; state[2] += c; state[3] += d;
    state[4] += e; state[5] += f; state[6] += g; state[7] += h;
  }

  function add(bytes) {
    length += bytes.length;
    let at = 0;
    if (held > 0) {
      at = Math.min(64 - held, bytes.length);
      rest.set(bytes.subarray(0, at), held);
      held += at;
      if (held < 64) return;
      block(rest, 0);
    }
    for (; at + 64 <= bytes.length; at += 64) block(bytes, at);
    held = bytes.length - at;
    rest.set(bytes.subarray(at));
  }

  function finish() {
    const end = new Uint8Array(held < 56 ? 64 - held : 128 - held);
    end[0] = 0x80;
    const view = new DataView(end.buffer);
    view.setUint32(end.length - 8, Math.floor(length / 0x20000000));
    view.setUint32(end.length - 4, length * 8 % 0x100000000);
    add(end);
    const digest = new Uint8Array(32);
    state.forEach((word, i) => new DataView(digest.buffer).setUint32(4 * i, word));
    return digest;
  }

  return { add, finish };
}

function sha256(bytes) {
  const digest = sha256InPieces();
  digest.add(bytes);
  return digest.finish();
}

const hexOf = (bytes) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");

function sameBytes(one, other) {
  return one.length === other.length && one.every((byte, i) => byte === other[i]);
}

function joinBytes(...pieces) {
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

// Each byte one character; for what is compared with plain words.
function latinOf(bytes) {
  let text = "";
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return text;
}

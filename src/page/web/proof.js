// On somebody else's network another machine may stand at the house's address. Before anything that was kept goes there
// over http, the house proves that it is the one that paired this device: HMAC-SHA-256 (RFC 2104, FIPS 180-4) of a number
// made here, with the key that it gave then, asked for without the cookie. With https the certificate is the proof.
// Written out here, since a browser offers none to a page that came over http.
function sha256(bytes) {
  const primes = [];
  for (let n = 2; primes.length < 64; ++n) if (primes.every((p) => n % p)) primes.push(n);
  const fraction = (x) => (x - Math.floor(x)) * 4294967296 | 0;
  const constants = primes.map((p) => fraction(Math.cbrt(p)));
  const state = primes.slice(0, 8).map((p) => fraction(Math.sqrt(p)));
  const padded = new Uint8Array((bytes.length + 72) & ~63);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 536870912));
  view.setUint32(padded.length - 4, bytes.length * 8);
  const turn = (x, by) => x >>> by | x << 32 - by;
  const words = new Int32Array(64);
  for (let block = 0; block < padded.length; block += 64) {
    for (let at = 0; at < 64; ++at)
      if (at < 16) words[at] = view.getInt32(block + at * 4);
      else {
        const a = words[at - 15];
        const b = words[at - 2];
        words[at] = words[at - 16] + words[at - 7] + (turn(a, 7) ^ turn(a, 18) ^ a >>> 3) + (turn(b, 17) ^ turn(b, 19) ^ b >>> 10);
      }
    let [a, b, c, d, e, f, g, h] = state;
    for (let at = 0; at < 64; ++at) {
      const one = h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + (e & f ^ ~e & g) + constants[at] + words[at] | 0;
      const two = (turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + (a & b ^ a & c ^ b & c) | 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, d + one | 0, c, b, a, one + two | 0];
    }
    [a, b, c, d, e, f, g, h].forEach((each, at) => { state[at] = state[at] + each | 0; });
  }
  const result = new Uint8Array(32);
  state.forEach((word, at) => new DataView(result.buffer).setInt32(at * 4, word));
  return result;
}
const fromHex = (text) => new Uint8Array((text.match(/../g) || []).map((two) => parseInt(two, 16)));
const toHex = (bytes) => [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
function hmacSha256(key, message) {
  const block = new Uint8Array(64);
  block.set(key.length > 64 ? sha256(key) : key);
  const joined = (by, rest) => {
    const all = new Uint8Array(64 + rest.length);
    all.set(block.map((byte) => byte ^ by));
    all.set(rest, 64);
    return all;
  };
  return sha256(joined(0x5c, sha256(joined(0x36, message))));
}

// Throws NotNow where whoever answers is not the house.
let provenAt = 0;
async function houseProves() {
  if (isSecureContext || Date.now() - provenAt < 20000) return;
  const house = JSON.parse(localStorage.getItem('house') || 'null');
  if (!house) throw new NotNow('this device has to be paired again');
  const nonce = freshId() + freshId();
  const stop = new AbortController();
  const clock = setTimeout(() => stop.abort(), 20000);
  try {
    const answer = await fetch('/proof?' + new URLSearchParams({ device: house.device, nonce }),
      { credentials: 'omit', cache: 'no-store', redirect: 'error', signal: stop.signal });
    if (answer.status === 404) throw new NotNow('this device has to be paired again');
    const said = answer.ok ? (await answer.json()).proof : '';
    if (said !== toHex(hmacSha256(fromHex(house.key), new TextEncoder().encode(nonce))))
      throw new NotNow('another machine stands at the address of the house: nothing was sent to it');
  } finally {
    clearTimeout(clock);
  }
  provenAt = Date.now();
}

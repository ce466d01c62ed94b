// Times npm's proj4 on a file of points: site grid to latitude and longitude in degrees, and back. As proj-peer.c, with which it shares its words.
import { readFileSync, writeFileSync } from 'node:fs';
import proj4 from 'proj4';

const [file, ...rest] = process.argv.slice(2);
const [x0, y0, e0, n0, a, b] = rest.slice(0, 6).map(Number);
const bytes = readFileSync(file);
const site = new Float64Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 8);
const out = new Float64Array(site.length * 2);
const converter = proj4(rest[6], '+proj=longlat +ellps=WGS84 +no_defs');
const n = site.length / 2, d = a * a + b * b;

const start = performance.now();
for (let i = 0; i < n; i++) {
  const x = site[2 * i] - x0, y = site[2 * i + 1] - y0;
  const there = converter.forward([e0 + (a * x - b * y), n0 + (b * x + a * y)]);
  out[2 * i] = there[1];
  out[2 * i + 1] = there[0];
}
const middle = performance.now();
for (let i = 0; i < n; i++) {
  const there = converter.inverse([out[2 * i + 1], out[2 * i]]);
  const e = there[0] - e0, w = there[1] - n0;
  out[site.length + 2 * i] = x0 + (a * e + b * w) / d;
  out[site.length + 2 * i + 1] = y0 + (a * w - b * e) / d;
}
const end = performance.now();
writeFileSync(`${file}.out`, out);
console.log(`${middle - start} ${end - middle}`);

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { makeStamp, makeView, stampLine, stampMarks } from '../stamping.js';

const red = 0xff0000ff, soft = 0x800000ff;
const cross = Uint32Array.of(soft, red, soft, red, red, red, soft, red, soft);

test('a mark is stamped around its place, edges only where nothing lies', () => {
  const width = 9, height = 7, buffer = new Uint32Array(width * height);
  buffer[1 * width + 3] = 0xff00ff00;
  const places = { x: Float64Array.of(0.4, 0.95), y: Float64Array.of(0.2, 0.5) };
  const stamps = [makeStamp(cross, 3, width)];
  const inside = stampMarks(buffer, makeView(width, height, 10, 0, 0), places, Uint32Array.of(0, 1), new Uint8Array(2), stamps);
  assert.equal(inside, 1, 'a mark that would leave the buffer is not drawn');
  assert.equal(buffer[2 * width + 4], red);
  assert.equal(buffer[1 * width + 4], red);
  assert.equal(buffer[1 * width + 5], soft);
  assert.equal(buffer[1 * width + 3], 0xff00ff00, 'an edge pixel does not cover another mark');
  assert.equal(buffer.filter(pixel => pixel !== 0).length, 9);
});

test('a line runs from end to end and is cut at the border', () => {
  const buffer = new Uint32Array(10 * 4);
  stampLine(buffer, 10, 4, 2, 1, 30, 1, 1, red);
  assert.deepEqual([...buffer].map((pixel, i) => (pixel ? i : -1)).filter(i => i >= 0), [12, 13, 14, 15, 16, 17, 18, 19]);
});

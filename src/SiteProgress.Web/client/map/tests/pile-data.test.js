import assert from 'node:assert/strict';
import { test } from 'node:test';
import { columnBytes, none16, none8, readPileData, writePileData } from '../pile-data.js';

const preamble = { zones: ['A'], barges: ['Tern'], days: ['2026-04-01'], note: 'Grüße' };
const source = {
  latitude: [43.5, 43.6], longitude: [141.1, 141.2], deviationEast: [12.5, NaN], deviationNorth: [-3.25, NaN],
  designDiameter: [1.25, 1.5], builtDiameter: [1.3125, NaN], day: [0, none16], state: [2, 0], zone: [0, none8], barge: [0, none8],
  numbers: ['A-1', 'Ä-22'],
};

test('what is written is read again, column by column', () => {
  const data = readPileData(writePileData(preamble, source));
  assert.equal(data.count, 2);
  assert.deepEqual(data.preamble, preamble);
  for (const [name, values] of Object.entries(source)) {
    if (name === 'numbers') values.forEach((number, i) => assert.equal(data.numberOf(i), number));
    else assert.deepEqual([...data[name]], values, name);
  }
});

test('the bytes lie where README.md says', () => {
  const buffer = writePileData({ zones: [] }, source), view = new DataView(buffer);
  assert.equal(String.fromCharCode(...new Uint8Array(buffer, 0, 4)), 'SPM1');
  assert.equal(view.getUint32(4, true), 2);
  const p = view.getUint32(8, true), t = view.getUint32(12, true), n = 2;
  assert.equal(p % 8, 0);
  assert.equal(t, 8); // A-1 is three bytes, Ä-22 is five
  assert.equal(buffer.byteLength, 16 + p + 16 * n + 16 * n + 4 * (n + 1) + 2 * n + 3 * n + t);
  const at = 16 + p;
  assert.equal(view.getFloat64(at + 8, true), 43.6);
  assert.equal(view.getFloat32(at + 32, true), 12.5);
  assert.equal(view.getUint32(at + 32 + 32 + 4, true), 3);
  assert.equal(view.getUint16(at + 64 + 12 + 2, true), 65535);
  assert.equal(view.getUint8(at + 64 + 12 + 4), 2);
});

test('columns are views of the answer, not copies', () => {
  const buffer = writePileData(preamble, source), data = readPileData(buffer);
  assert.ok([data.latitude, data.deviationEast, data.numberOffset, data.day, data.state].every(column => column.buffer === buffer));
});

test('no pile at all is a whole answer', () => {
  const empty = Object.fromEntries(Object.keys(source).map(name => [name, []]));
  assert.equal(readPileData(writePileData(preamble, empty)).count, 0);
  assert.equal(columnBytes(0), 4);
});

test('an answer that is cut off, too long or something else is refused with a sentence', () => {
  const buffer = writePileData(preamble, source);
  assert.throws(() => readPileData(buffer.slice(0, buffer.byteLength - 1)), /cut off/);
  assert.throws(() => readPileData(new ArrayBuffer(7)), /cut off/);
  assert.throws(() => readPileData(new TextEncoder().encode('<!doctype html><html></html>').buffer), /not pile data/);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { holdPointOf, none16, none8, readPileData, writePileData } from '../pile-data.js';
import { describe } from '../read-out.js';
import { englishWords } from '../words.js';

const source = {
  latitude: [43.5, 43.6], longitude: [141.1, 141.2], deviationEast: [NaN, NaN], deviationNorth: [NaN, NaN],
  designDiameter: [2, 2], builtDiameter: [NaN, NaN], day: [none16, none16], state: [0, 0], zone: [0, 0], barge: [none8, none8],
  numbers: ['C-0001', 'C-0002'],
};
const preamble = { zones: ['C'], barges: [], days: [], waiting: [[1, 2]] };

test('the card of a pile that waits for a hold point says for which, and no other does', () => {
  const data = readPileData(writePileData(preamble, source));
  assert.equal(holdPointOf(data, 0), undefined);
  assert.equal(holdPointOf(data, 1), 2);
  assert.deepEqual(describe(englishWords, data, 1, 0).at(-1), ['hold point', 'waits for hold point 2']);
  assert.ok(!describe(englishWords, data, 0, 0).flat().some(text => text.includes('hold point')));
});

test('an answer of a site without hold points has none', () => {
  const data = readPileData(writePileData({ ...preamble, waiting: undefined }, source));
  assert.equal(holdPointOf(data, 1), undefined);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { applyFilters, everything, stateThrough } from '../filters.js';
import { none16, none8 } from '../pile-data.js';

const data = {
  count: 6,
  state: Uint8Array.of(3, 0, 2, 5, 8, 2), zone: Uint8Array.of(0, 0, 1, 1, 0, none8),
  barge: Uint8Array.of(0, none8, 1, 0, none8, 1), day: Uint16Array.of(2, none16, 0, 1, none16, 3),
};
const shownBy = filters => [...applyFilters(data, { ...everything, ...filters }).order].sort((a, b) => a - b);

test('no filter shows every pile, findings drawn last', () => {
  const { order, counts } = applyFilters(data, everything);
  assert.equal(order.length, 6);
  assert.equal(order.at(-1), 0);
  assert.deepEqual([...counts], [1, 0, 2, 1, 0, 1, 0, 0, 1]);
});

test('zone, barge, day and state narrow together', () => {
  assert.deepEqual(shownBy({ zones: new Set([0]) }), [0, 1, 4]);
  assert.deepEqual(shownBy({ barges: new Set([1]) }), [2, 5]);
  assert.deepEqual(shownBy({ day: 1 }), [3]);
  assert.deepEqual(shownBy({ states: new Set([2, 3]) }), [0, 2, 5]);
  assert.deepEqual(shownBy({ states: new Set([2]), zones: new Set([1]) }), [2]);
});

test('a state that is switched off keeps its count in the legend', () => {
  const { counts, order } = applyFilters(data, { ...everything, states: new Set([3]) });
  assert.equal(order.length, 1);
  assert.equal(counts[2], 2);
});

test('as of a day, what was built later is outstanding and a cancelled pile stays cancelled', () => {
  const { shown, counts } = applyFilters(data, { ...everything, through: 1 });
  assert.deepEqual([...shown], [0, 0, 2, 5, 8, 0]);
  assert.equal(counts[0], 3);
  assert.equal(stateThrough(5, 4, null), 5);
  assert.equal(stateThrough(5, none16, 7), 0);
});

test('as of a day, a pile its barge had not built yet is not that barge’s', () => {
  assert.deepEqual(shownBy({ barges: new Set([1]), through: 1 }), [2]);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readAddress, writeAddress } from '../address.js';
import { everything } from '../filters.js';

const preamble = { zones: ['A', 'B & C', '~1'], barges: ['Tern', 'Plover'], days: ['2026-04-01', '2026-04-02'] };

test('a view written to the address is read again', () => {
  const state = {
    view: { latitude: 43.5204379, longitude: -141.3013425, zoom: 18.5 }, exaggeration: 50,
    filters: { ...everything, states: new Set([0, 3]), zones: new Set([1, 2]), barges: new Set([0]), through: 1 },
  };
  const query = writeAddress(new URLSearchParams('lang=en&zone=old'), preamble, state);
  assert.equal(query.get('lang'), 'en');
  assert.deepEqual(readAddress(new URLSearchParams(query.toString()), preamble), state);
});

test('nothing chosen leaves nothing but the place', () => {
  const query = writeAddress(new URLSearchParams(), preamble, { view: { latitude: 1, longitude: 2, zoom: 3 }, filters: everything, exaggeration: 0 });
  assert.deepEqual([...query.keys()], ['at']);
});

test('names and numbers that make no sense are left out', () => {
  const query = new URLSearchParams('at=91,0,3&state=sunk&zone=Z&day=2020-01-01&vectors=7');
  assert.deepEqual(readAddress(query, preamble), { view: null, filters: everything, exaggeration: 0 });
  assert.equal(readAddress(new URLSearchParams('at=1,2'), preamble).view, null);
});

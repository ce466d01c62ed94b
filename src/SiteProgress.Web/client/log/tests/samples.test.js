import { test } from 'node:test';
import assert from 'node:assert/strict';
import { clockText, moved, phaseAt, rangeOf, readings, shortest, within, zoomed } from '../samples.js';

const bounds = { first: 100, last: 400 };

test('the part that is shown stays within the log and is never shorter than the shortest', () => {
  assert.deepEqual(within({ from: 0, to: 1000 }, bounds), { from: 100, to: 400 });
  assert.deepEqual(within({ from: 380, to: 480 }, bounds), { from: 300, to: 400 });
  const least = within({ from: 200, to: 200 }, bounds);
  assert.equal(least.to - least.from, shortest);
});

test('zooming keeps the moment under the pointer where it is', () => {
  const near = zoomed({ from: 100, to: 400 }, 0.5, 175, bounds);
  assert.deepEqual(near, { from: 137.5, to: 287.5 });
  assert.equal((175 - near.from) / (near.to - near.from), (175 - 100) / 300);
  assert.deepEqual(zoomed(near, 100, 175, bounds), { from: 100, to: 400 });
});

test('a moment outside moves the window only as far as it must', () => {
  assert.deepEqual(moved({ from: 150, to: 200 }, 210, bounds), { from: 160, to: 210 });
  assert.deepEqual(moved({ from: 150, to: 200 }, 160, bounds), { from: 150, to: 200 });
});

test('time is written as on a clock, over midnight too', () => {
  assert.equal(clockText(6 * 3600 + 5, true), '06:00:05');
  assert.equal(clockText(24 * 3600 + 65, false), '00:01');
  assert.equal(clockText(86_399.9, true), '00:00:00');
});

test('what was not read says so, a word stands for its number, and units follow figures', () => {
  const panels = [
    { unit: 'm', decimals: 2, series: [{ name: 'casing tip', values: [-12.345, null] }] },
    { unit: '', decimals: 0, words: { 0: 'closed', 1: 'open' }, series: [{ name: 'valve', values: [1, 0] }] },
  ];
  assert.deepEqual(readings(panels, 0), [{ name: 'casing tip', text: '\u221212.35\u2009m' }, { name: 'valve', text: 'open' }]);
  assert.equal(readings(panels, 1)[0].text, 'not read');
});

test('a phase holds from its begin up to its end', () => {
  const panels = [{ lanes: [{ name: 'penetration', spans: [[100, 200]] }, { name: 'withdrawal', spans: [[200, 260]] }] }];
  assert.equal(phaseAt(panels, 199.9), 'penetration');
  assert.equal(phaseAt(panels, 200), 'withdrawal');
  assert.equal(phaseAt(panels, 300), '');
});

test('an axis has height even where nothing or one same value was read', () => {
  for (const values of [[], [null, null], [3, 3]]) {
    const [low, high] = rangeOf({ series: [{ values }] });
    assert.ok(high > low);
  }
  assert.deepEqual(rangeOf({ low: -20, high: 5, series: [{ values: [-40, 40] }] }), [-20, 5]);
});

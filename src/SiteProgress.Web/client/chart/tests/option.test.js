import { test } from 'node:test';
import assert from 'node:assert/strict';
import { countPoints, dressed, numberText, withColours } from '../option.js';

test('colours are taken by name from the style sheet, everything else stays', () => {
  const given = { series: [{ color: 'var(--blue)', data: [1, 2], name: 'var(--x) is not a colour' }] };
  assert.deepEqual(withColours(given, name => `<${name}>`), { series: [{ color: '<--blue>', data: [1, 2], name: 'var(--x) is not a colour' }] });
  assert.equal(given.series[0].color, 'var(--blue)');
});

test('numbers carry a real minus, thin spaces and no negative zero', () => {
  assert.equal(numberText(-1234.5, 2), '\u22121\u2009234.50');
  assert.equal(numberText(-0.001, 1), '0.0');
  assert.equal(numberText(999), '999');
  assert.equal(numberText(1234567), '1\u2009234\u2009567');
  assert.equal(numberText(null), '—');
});

test('a value under the pointer names its unit, a missing one does not', () => {
  const [series] = dressed({ series: [{ type: 'line', unit: 'm', decimals: 1, data: [] }] }, name => name).series;
  assert.equal(series.tooltip.valueFormatter(12), '12.0\u2009m');
  assert.equal(series.tooltip.valueFormatter(null), '—');
});

test('what the page says overrides the common look', () => {
  const option = dressed({ tooltip: { trigger: 'item' }, xAxis: { name: 'day', nameGap: 50 }, yAxis: [{}, {}], series: [] }, name => name);
  assert.equal(option.tooltip.trigger, 'item');
  assert.equal(option.tooltip.renderMode, 'richText');
  assert.equal(option.xAxis.nameGap, 50);
  assert.equal(option.yAxis.length, 2);
});

test('points are counted over all series', () => {
  assert.equal(countPoints({ series: [{ data: [1, 2] }, {}, { data: [3] }] }), 3);
  assert.equal(countPoints({}), 0);
});

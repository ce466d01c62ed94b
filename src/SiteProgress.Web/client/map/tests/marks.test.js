import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { contrast, drawingOrder, edgeOf, grounds, markSheet, states } from '../marks.js';
import { dotColour } from '../sprites.js';

test('every mark and every dot stands out 3 to 1 from the ground in both themes', () => {
  for (const theme of ['light', 'dark'])
    states.forEach((state, index) => {
      for (const colour of [edgeOf(index, theme), dotColour(index, theme)]) {
        const ratio = contrast(colour, grounds[theme]);
        assert.ok(ratio >= 3, `${state.key} in ${theme}: ${ratio.toFixed(2)}`);
      }
    });
});

test('contrast is as WCAG 2.2 defines it', () => {
  assert.equal(contrast('#000000', '#ffffff'), 21);
  // #767676 on white is the usual example of a grey that just passes 4.5 : 1 (WebAIM, contrast checker).
  assert.ok(Math.abs(contrast('#767676', '#ffffff') - 4.54) < 0.005);
});

test('no two states share a shape, so that grey print keeps them apart', () => {
  const shapes = states.map(state => `${state.fill ?? ''}|${state.line ?? ''}`);
  assert.equal(new Set(shapes).size, states.length);
});

test('each state is drawn exactly once, and a finding last', () => {
  assert.deepEqual([...drawingOrder].sort((a, b) => a - b), states.map((_, index) => index));
  assert.equal(states[drawingOrder.at(-1)].key, 'finding');
});

test('the style sheet knows every mark and the same grounds', () => {
  const css = readFileSync(new URL('../map.css', import.meta.url), 'utf8');
  for (const state of states) assert.ok(css.includes(`.pile-mark-${state.key}`), state.key);
  for (const ground of Object.values(grounds)) assert.ok(css.includes(`--map-ground: ${ground};`), ground);
});

test('the sheet of symbols holds every state by its key', () => {
  for (const state of states) assert.ok(markSheet().includes(`id="${state.key}"`));
});

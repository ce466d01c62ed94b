// The piles in view as a list of links: the way to a pile by keyboard and by screen reader.

import { make } from './dom.js';
import { fixed } from './format.js';
import { markElement } from './marks.js';
import { holdPointOf } from './pile-data.js';

const most = 50;

/**
 * The `count` indices of `inside` that lie nearest to a place, nearest first.
 * @param {number[]} inside indices @param places `x` and `y` on the unit square
 */
export function nearestFirst(inside, places, x, y, count) {
  const squared = i => (places.x[i] - x) ** 2 + (places.y[i] - y) ** 2;
  if (inside.length > count * 4) {
    // Sorting everything in view would cost more than drawing it: keep a sorted short list instead.
    const kept = [];
    for (const i of inside) {
      const d = squared(i);
      if (kept.length === count && d >= kept[count - 1][1]) continue;
      let at = kept.length;
      while (at > 0 && kept[at - 1][1] > d) at--;
      kept.splice(at, 0, [i, d]);
      if (kept.length > count) kept.pop();
    }
    return kept.map(([i]) => i);
  }
  return inside.slice().sort((a, b) => squared(a) - squared(b)).slice(0, count);
}

/** @returns `element` and `refresh(inside, middle)`; nothing is made while the list is closed. */
export function makeList(words, data, layer, addressOf, point, open) {
  const note = make('p', { class: 'map-list-note' }), list = make('ul'), count = make('span', { class: 'map-chip-count' });
  let pending = () => {}, shown = [], said = '';
  const element = make('details', { class: 'map-list', ontoggle: () => pending() }, make('summary', {}, words.list, ' ', count), note, list);
  const entry = index => {
    const number = data.numberOf(index), state = layer.selection.shown[index], address = addressOf(number), hold = holdPointOf(data, index);
    const said = hold === undefined ? words.states[layer.stateKey(state)] : `${words.states[layer.stateKey(state)]}, ${words.waits(hold)}`;
    const inner = [markElement(state), make('span', {}, number), make('span', { class: 'map-list-state' }, said)];
    const look = { onfocus: () => point(index), onblur: () => point(-1), onmouseenter: () => point(index), onmouseleave: () => point(-1) };
    return make('li', {}, address
      ? make('a', { href: address, ...look, onclick: event => { if (open(index, event)) event.preventDefault(); } }, ...inner)
      : make('button', { type: 'button', ...look, onclick: event => open(index, event) }, ...inner));
  };
  return {
    element,
    refresh(inside, x, y) {
      count.textContent = fixed(inside.length, 0);
      pending = () => {
        if (!element.open) return;
        const nearest = nearestFirst(inside, layer.places, x, y, most);
        note.textContent = inside.length === 0 ? words.listEmpty : inside.length > most ? words.listMore(most, fixed(inside.length, 0)) : '';
        pending = () => {};
        const saying = nearest.map(index => `${index}:${layer.selection.shown[index]}`).join();
        if (saying === said) return;
        // Whoever stands on a pile of the list by keyboard stays on it while the list is made anew.
        const at = shown[[...list.children].findIndex(item => item.contains(document.activeElement))];
        list.replaceChildren(...nearest.map(entry));
        [shown, said] = [nearest, saying];
        if (at !== undefined) list.children[nearest.indexOf(at)]?.firstElementChild.focus({ preventScroll: true });
      };
      pending();
    },
  };
}

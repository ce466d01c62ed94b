// Which piles are shown and in which state, on the typed arrays alone.

import { drawingOrder, states } from './marks.js';
import { none16 } from './pile-data.js';

/** Filters that show everything. `day` and `through` are indices of the preamble's day list, or null. */
export const everything = Object.freeze({ states: null, zones: null, barges: null, day: null, through: null });

const outstanding = 0, cancelled = states.length - 1;

/** State of a pile when the record is looked at as of a day: what was not built by then is outstanding; later decisions stay as they are now. */
export function stateThrough(state, day, through) {
  if (through === null || state === outstanding || state === cancelled) return state;
  return day !== none16 && day <= through ? state : outstanding;
}

/**
 * Applies filters.
 * @param data what readPileData returns
 * @param filters sets of indices (`states`, `zones`, `barges`; null: all), `day` (built on this day only), `through` (as of this day)
 * @returns `shown`: state by pile; `order`: indices of the piles shown, in drawing order; `counts`: piles by state, the state filter left
 *   out so that the legend still says what a state that is switched off holds
 */
export function applyFilters(data, filters) {
  const { count, state, zone, barge, day } = data;
  const shown = new Uint8Array(count), counts = new Uint32Array(states.length), kept = new Uint8Array(count);
  const zones = members(filters.zones), barges = members(filters.barges), wanted = members(filters.states);
  const drawn = new Uint32Array(states.length);
  for (let i = 0; i < count; i++) {
    const now = shown[i] = stateThrough(state[i], day[i], filters.through);
    const built = filters.through === null || (day[i] !== none16 && day[i] <= filters.through);
    if (zones && !zones[zone[i]]) continue;
    if (barges && !(built && barges[barge[i]])) continue;
    if (filters.day !== null && day[i] !== filters.day) continue;
    counts[now]++;
    if (wanted && !wanted[now]) continue;
    kept[i] = 1;
    drawn[now]++;
  }
  return { shown, counts, order: sortForDrawing(kept, shown, drawn) };
}

function members(set) {
  if (!set) return null;
  const table = new Uint8Array(256);
  for (const index of set) table[index] = 1;
  return table;
}

function sortForDrawing(kept, shown, drawn) {
  const next = new Uint32Array(drawn.length);
  let total = 0;
  for (const state of drawingOrder) { next[state] = total; total += drawn[state]; }
  const order = new Uint32Array(total);
  for (let i = 0; i < kept.length; i++) if (kept[i]) order[next[shown[i]]++] = i;
  return order;
}

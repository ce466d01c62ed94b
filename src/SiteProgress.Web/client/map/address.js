// The part of a map that lives in the page's address: a link to exactly this view can be sent to someone.

import { everything } from './filters.js';
import { states } from './marks.js';

/** Exaggerations a person can choose for deviation vectors; 0 means no vectors. */
export const exaggerations = [0, 1, 2, 5, 10, 20, 50, 100, 200];

const names = ['at', 'state', 'zone', 'barge', 'day', 'through', 'vectors'];

/**
 * Reads the map's state from an address query; names that no longer exist are left out.
 * @param {URLSearchParams} query
 * @param {object} preamble names of zones, barges and days
 */
export function readAddress(query, preamble) {
  const pick = (name, list) => {
    const indices = query.getAll(name).map(word => list.indexOf(word)).filter(index => index >= 0);
    return indices.length ? new Set(indices) : null;
  };
  const dayOf = name => {
    const index = preamble.days.indexOf(query.get(name));
    return index < 0 ? null : index;
  };
  const at = (query.get('at') ?? '').split(',').map(Number);
  const vectors = Number(query.get('vectors'));
  return {
    view: at.length === 3 && at.every(Number.isFinite) && Math.abs(at[0]) <= 85 && Math.abs(at[1]) <= 180
      ? { latitude: at[0], longitude: at[1], zoom: at[2] } : null,
    filters: {
      ...everything,
      states: pick('state', states.map(state => state.key)),
      zones: pick('zone', preamble.zones),
      barges: pick('barge', preamble.barges),
      day: dayOf('day'),
      through: dayOf('through'),
    },
    exaggeration: exaggerations.includes(vectors) ? vectors : 0,
  };
}

/** Writes the map's state into a copy of `query`; what does not belong to the map stays. */
export function writeAddress(query, preamble, { view, filters, exaggeration }) {
  const result = new URLSearchParams(query);
  for (const name of names) result.delete(name);
  const put = (name, set, list) => { for (const index of [...set ?? []].sort((a, b) => a - b)) result.append(name, list[index]); };
  if (view) result.set('at', `${view.latitude.toFixed(7)},${view.longitude.toFixed(7)},${+view.zoom.toFixed(2)}`);
  put('state', filters.states, states.map(state => state.key));
  put('zone', filters.zones, preamble.zones);
  put('barge', filters.barges, preamble.barges);
  if (filters.day !== null) result.set('day', preamble.days[filters.day]);
  if (filters.through !== null) result.set('through', preamble.days[filters.through]);
  if (exaggeration) result.set('vectors', exaggeration);
  return result;
}

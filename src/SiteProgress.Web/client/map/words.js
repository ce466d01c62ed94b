// Every word the map shows. A page may replace any of them through `options.words`.

import { states } from './marks.js';

export const englishWords = Object.freeze({
  states: Object.fromEntries(states.map(state => [state.key, state.word])),
  map: 'Map of piles. Arrow keys move it, plus and minus zoom.',
  state: 'State', zone: 'Zone', barge: 'Barge', all: 'show all',
  day: 'Built on', anyDay: 'any day', through: 'As of the end of', now: 'now',
  throughNote: 'What was built by then, in its present state.',
  vectors: 'Deviation vectors', noVectors: 'none', toScale: 'to scale', exaggerated: times => `${times} times too long`,
  shown: (shown, all) => `${shown} of ${all} piles shown`,
  list: 'Piles in view', listMore: (listed, all) => `The ${listed} nearest the middle, of ${all} in view. Zoom in to list fewer.`,
  listEmpty: 'No pile is in view.',
  zoomIn: 'Zoom in', zoomOut: 'Zoom out', zoomAll: 'Show all piles',
  pointer: 'pointer', middle: 'middle of the map', outsideGrid: 'outside the site grid', datum: 'WGS 84',
  openPile: 'open record', radial: 'deviation', components: 'dE, dN (CRS grid)', builtOn: 'built', planned: 'design diameter', equivalent: 'as-built diameter',
  record: (sequence, at) => `As of record ${sequence}, ${at}`,
  designChangedName: 'design', designChanged: 'built, design changed',
  designChangedNote: count => `Dashed ring: built, design changed (${count}).`,
  waitsName: 'hold point', waits: hold => `waits for hold point ${hold}`,
  waitsNote: count => `Dotted ring: waits for a hold point (${count}).`,
  design: revision => `Design: ${revision}`,
  controls: times => `Triangles: control points, with what the adjustment leaves at each; the lines are drawn × ${times}.`,
  loading: 'Loading piles …', failed: 'The piles could not be loaded.', retry: 'Try again', empty: 'No pile is planned yet. Bring in a pile schedule under Records in.',
  drawingFailed: 'The site drawing could not be loaded.',
  north: 'True north is up.', gridNorth: degrees => `CRS grid north lies ${degrees} of true north.`,
  filters: 'Legend and filters', readOutError: millimetres => `Site grid by a fitted polynomial; largest error ${millimetres} mm.`,
});

/** The English words with some replaced. */
export function wordsFrom(replaced = {}) {
  return { ...englishWords, ...replaced, states: { ...englishWords.states, ...replaced.states } };
}

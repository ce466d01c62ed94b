// Generated piles for the development page and the bench: an invented site, no product data.

import { writePileData } from '../pile-data.js';
import { none16, none8 } from '../pile-data.js';

/** A small generator of repeatable numbers in 0..1 (a linear congruential generator, constants of Numerical Recipes). */
export function repeatable(seed) {
  let state = seed >>> 0;
  return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 4294967296;
}

const latitude0 = 43.52, longitude0 = 141.3, turn = 24 * Math.PI / 180;
const metresPerDegree = 111105, cosine = Math.cos(latitude0 * Math.PI / 180);

/** Columns of `count` piles in three blocks, about 60 % built. */
export function samplePiles(count, seed = 7) {
  const random = repeatable(seed), normal = () => Math.sqrt(-2 * Math.log(random() + 1e-12)) * Math.cos(2 * Math.PI * random());
  const typed = { latitude: Float64Array, longitude: Float64Array, deviationEast: Float32Array, deviationNorth: Float32Array, designDiameter: Float32Array, builtDiameter: Float32Array, day: Uint16Array, state: Uint8Array, zone: Uint8Array, barge: Uint8Array };
  const columns = Object.fromEntries(Object.entries(typed).map(([name, Type]) => [name, new Type(count)]));
  columns.numbers = [];
  const zones = 3, perZone = Math.ceil(count / zones), rows = Math.ceil(Math.sqrt(perZone / 3));
  for (let i = 0; i < count; i++) {
    const zone = Math.floor(i / perZone), within = i % perZone, row = within % rows, column = Math.floor(within / rows);
    const spacing = 2.1, gap = 8, along = (column + (zone === 1 && row % 2 ? 0.5 : 0)) * spacing, across = row * spacing + zone * (rows * spacing + gap);
    const east = along * Math.cos(turn) + across * Math.sin(turn), north = -along * Math.sin(turn) + across * Math.cos(turn);
    columns.latitude[i] = latitude0 + north / metresPerDegree;
    columns.longitude[i] = longitude0 + east / (metresPerDegree * cosine);
    columns.zone[i] = zone;
    columns.numbers.push(`${'ABC'[zone]}-${String(within + 1).padStart(5, '0')}`);
    columns.designDiameter[i] = [1.7, 1.7, 2][zone] / 1.35;
    build(columns, i, column * 3 / Math.ceil(perZone / rows) / 3 * 1.6 + zone * 0.05, random, normal);
  }
  return columns;
}

function build(columns, i, progress, random, normal) {
  const built = progress < 0.96 && random() > 0.01;
  columns.day[i] = built ? Math.min(74, Math.floor(progress * 75)) : none16;
  columns.barge[i] = built ? Math.floor(random() * 3) : none8;
  columns.deviationEast[i] = built ? 40 * normal() + 30 : NaN;
  columns.deviationNorth[i] = built ? 40 * normal() : NaN;
  columns.builtDiameter[i] = built ? columns.designDiameter[i] * (1 + 0.05 * normal()) : NaN;
  const chance = random();
  columns.state[i] = !built ? (chance < 0.004 ? 8 : 0)
    : chance < 0.03 ? 3 : chance < 0.05 ? 1 : chance < 0.06 ? 4 : chance < 0.066 ? 7 : chance < 0.08 ? 6 : progress < 0.4 ? 5 : 2;
}

/** A preamble that fits `samplePiles`; its site grid is a plain turned plane, exact enough to look at. */
export function samplePreamble() {
  const days = Array.from({ length: 75 }, (_, i) => new Date(Date.UTC(2026, 3, 1 + i)).toISOString().slice(0, 10));
  const span = 0.03, east = span * metresPerDegree * cosine, north = span * metresPerDegree;
  return {
    recordSequence: 4211, recordedAt: '2026-06-14 18:05 site time', zones: ['A', 'B', 'C'], barges: ['Tern', 'Plover', 'Curlew'], days,
    convergenceDegrees: 0.21, pointScale: 0.99962,
    siteGrid: {
      axes: ['X', 'Y'], centreLatitude: latitude0, centreLongitude: longitude0, spanLatitude: span, spanLongitude: span, largestErrorMetres: 0.0002,
      first: [1000, east * Math.cos(turn), -north * Math.sin(turn)], second: [500, east * Math.sin(turn), north * Math.cos(turn)],
    },
  };
}

/** The whole answer for `count` piles. */
export function sampleAnswer(count) { return writePileData(samplePreamble(), samplePiles(count)); }

/** A breakwater and a barge near the piles. */
export function sampleDrawing() {
  const place = (along, across) => {
    const east = along * Math.cos(turn) + across * Math.sin(turn), north = -along * Math.sin(turn) + across * Math.cos(turn);
    return [longitude0 + east / (metresPerDegree * cosine), latitude0 + north / metresPerDegree];
  };
  const box = (a, b, c, d) => [[place(a, b), place(c, b), place(c, d), place(a, d), place(a, b)]];
  const feature = (kind, name, coordinates) => ({ type: 'Feature', properties: { kind, name }, geometry: { type: 'Polygon', coordinates } });
  return { type: 'FeatureCollection', features: [
    feature('structure', 'West breakwater', box(-15, -40, 175, -12)),
    feature('zone', 'A', box(-3, -3, 170, 55)),
    feature('barge', 'Tern', box(92, 20, 140, 42)),
  ] };
}

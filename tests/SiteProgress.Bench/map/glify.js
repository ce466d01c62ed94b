// leaflet.glify's WebGL points. Its array of pairs and the colours are made beforehand and not timed; no click or hover,
// and the fragment program without a border, its lightest round one.
import * as leaflet from 'leaflet/dist/leaflet-src.esm.js';
import { colourOf } from '../../../src/SiteProgress.Web/client/map/marks.js';
import * as harness from './harness.js';

globalThis.L = { ...leaflet }; // it looks for a global
await import('leaflet.glify');

export const { watchFrames, framesSeen, oneFrame } = harness;
const colours = Array.from({ length: 9 }, (_, state) => {
  const value = parseInt(colourOf(state, 'light').slice(1), 16);
  return { r: (value >> 16) / 255, g: ((value >> 8) & 255) / 255, b: (value & 255) / 255, a: 1 };
});
export const firstPaint = count => harness.firstPaint({
  makeMap: (element, bounds) => new leaflet.Map(element, { zoomControl: false, attributionControl: false, inertia: false, zoomSnap: 0.5, maxZoom: 24 }).fitBounds(bounds),
  prepare: data => ({ pairs: Array.from(data.latitude, (latitude, i) => [latitude, data.longitude[i]]), state: data.state }),
  add: (map, { pairs, state }) => globalThis.L.glify.points({ map, data: pairs, size: 7, color: index => colours[state[index]], opacity: 1, fragmentShaderSource: () => globalThis.L.glify.shader.fragment.simpleCircle }),
}, count);

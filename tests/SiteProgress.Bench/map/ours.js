// Our layer, with the real shapes of all nine states at 7 px even where the product would draw smaller dots.
import { Map as LeafletMap } from 'leaflet/dist/leaflet-src.esm.js';
import { applyFilters, everything } from '../../../src/SiteProgress.Web/client/map/filters.js';
import { PileLayer } from '../../../src/SiteProgress.Web/client/map/pile-layer.js';
import * as harness from './harness.js';

export const { watchFrames, framesSeen, oneFrame } = harness;
export const firstPaint = count => harness.firstPaint({
  makeMap: (element, bounds) => new LeafletMap(element, { zoomControl: false, attributionControl: false, inertia: false, zoomSnap: 0.5, maxZoom: 24 }).fitBounds(bounds),
  prepare: data => data,
  // Filtering and projecting are part of showing piles, so they are timed.
  add: (map, data) => new PileLayer(data, applyFilters(data, everything), { markSize: 7, pane: 'overlayPane' }).addTo(map),
}, count);

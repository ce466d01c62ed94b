// Leaflet's circle markers on its canvas: no stroke and no pointer events, which is its quickest setting.
import { Map as LeafletMap, canvas, circleMarker, layerGroup } from 'leaflet/dist/leaflet-src.esm.js';
import { colourOf } from '../../../src/SiteProgress.Web/client/map/marks.js';
import * as harness from './harness.js';

export const { watchFrames, framesSeen, oneFrame } = harness;
const colours = Array.from({ length: 9 }, (_, state) => colourOf(state, 'light'));
export const firstPaint = count => harness.firstPaint({
  makeMap: (element, bounds) => new LeafletMap(element, { zoomControl: false, attributionControl: false, inertia: false, zoomSnap: 0.5, maxZoom: 24 }).fitBounds(bounds),
  prepare: data => data,
  add(map, data) {
    const renderer = canvas(), markers = [];
    for (let i = 0; i < data.count; i++)
      markers.push(circleMarker([data.latitude[i], data.longitude[i]], { renderer, radius: 3.5, stroke: false, fillColor: colours[data.state[i]], fillOpacity: 1, interactive: false }));
    layerGroup(markers).addTo(map);
  },
}, count);

// The site drawing under the piles: outlines and names from a GeoJSON file the server has already turned into latitude and longitude.

import { circleMarker, divIcon, geoJSON, marker } from 'leaflet/dist/leaflet-src.esm.js';
import { make } from './dom.js';

const onTop = new Set(['barge', 'unplaced', 'control', 'residual', 'plan-way', 'plan-set-up']);
const kinds = new Set(['structure', 'zone', 'anchor-zone', 'line', 'text', 'plan-anchors', ...onTop]);

/**
 * Leaflet layers of a drawing: barges and installations on no planned pile, and the way of a plan above the piles, all else below, names above both. The style sheet colours them by `kind`, names are text nodes.
 * @param drawing GeoJSON feature collection @param {string} below name of the pane under the piles @param {string} above the one over them
 * @param {string} namePane the one the names stand in
 */
export function makeDrawing(drawing, below, above, namePane) {
  return [makeLayer(drawing, below, namePane, kind => !onTop.has(kind)), makeLayer(drawing, above, namePane, kind => onTop.has(kind))];
}

// An installation on no planned pile is a circle, a control point the surveyor's triangle, a planned set-up a dot; other points of a drawing have no mark of their own.
const pointMarks = {
  unplaced: (at, pane) => circleMarker(at, { pane, interactive: false, radius: 5, className: 'drawing drawing-unplaced' }),
  'plan-set-up': (at, pane) => circleMarker(at, { pane, interactive: false, radius: 3, className: 'drawing drawing-plan-set-up' }),
  control: (at, pane) => marker(at, { pane, interactive: false, keyboard: false, icon: divIcon({ className: 'drawing-control', iconSize: [14, 12], html: '' }) }),
};

function makeLayer(drawing, pane, namePane, wanted) {
  return geoJSON(drawing, {
    pane,
    interactive: false,
    filter: feature => wanted(kindOf(feature)),
    style: feature => ({ className: `drawing drawing-${kindOf(feature)}` }),
    pointToLayer: (feature, at) => pointMarks[kindOf(feature)]?.(at, pane) ?? null,
    onEachFeature(feature, layer) {
      const name = feature.properties?.name;
      if (name) layer.bindTooltip(make('span', {}, name), { permanent: true, direction: 'center', className: `drawing-name drawing-name-${kindOf(feature)}`, pane: namePane });
    },
  });
}

function kindOf(feature) {
  const kind = feature.properties?.kind;
  return kinds.has(kind) ? kind : 'line';
}

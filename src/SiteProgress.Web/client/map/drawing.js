// The site drawing under the piles: outlines and names from a GeoJSON file the server has already turned into latitude and longitude.

import { geoJSON } from 'leaflet/dist/leaflet-src.esm.js';
import { make } from './dom.js';

const kinds = new Set(['structure', 'zone', 'anchor-zone', 'barge', 'line', 'text']);

/**
 * Leaflet layers of a drawing: barges above the piles, all else below, names above both. The style sheet colours them by `kind`, names are text nodes.
 * @param drawing GeoJSON feature collection @param {string} below name of the pane under the piles @param {string} above the one over them
 * @param {string} namePane the one the names stand in
 */
export function makeDrawing(drawing, below, above, namePane) {
  return [makeLayer(drawing, below, namePane, kind => kind !== 'barge'), makeLayer(drawing, above, namePane, kind => kind === 'barge')];
}

function makeLayer(drawing, pane, namePane, wanted) {
  return geoJSON(drawing, {
    pane,
    interactive: false,
    filter: feature => wanted(kindOf(feature)),
    style: feature => ({ className: `drawing drawing-${kindOf(feature)}` }),
    pointToLayer: () => null,
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

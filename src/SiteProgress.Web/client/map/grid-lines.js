// Lines of the site grid under the piles, with their values at the edges; latitude and longitude where the site has no grid yet.

import { DomUtil, Layer, setOptions } from 'leaflet/dist/leaflet-src.esm.js';
import { fixed } from './format.js';

const apart = 130; // CSS pixels between lines, about

/** Largest of 1, 2, 5 times a power of ten that is not above `value`. */
export function roundStep(value) {
  const power = 10 ** Math.floor(Math.log10(value));
  return (value >= 5 * power ? 5 : value >= 2 * power ? 2 : 1) * power;
}

/** How a frame's lines are found and named. */
function frameOf(siteGrid) {
  if (siteGrid) {
    return {
      toPlane: siteGrid.anywhere,
      toGeographic: (a, b) => siteGrid.toGeographic(a, b),
      name: (axis, value, step) => `${siteGrid.axes[axis]} ${fixed(value, step < 1 ? 1 : 0)}`,
    };
  }
  return {
    toPlane: (latitude, longitude) => [longitude, latitude],
    toGeographic: (longitude, latitude) => ({ latitude, longitude }),
    name: (_, value, step) => `${fixed(value, Math.max(0, -Math.floor(Math.log10(step))))}°`,
  };
}

export const GridLines = Layer.extend({
  initialize(siteGrid, options) {
    setOptions(this, options);
    this._frame = frameOf(siteGrid);
  },

  onAdd(map) {
    this._lines = makeSheet(this.getPane());
    this._names = makeSheet(map.getPane(this.options.namePane)); // above the piles, or their values could not be read
    this.redraw();
  },

  onRemove() {
    this._lines.remove();
    this._names.remove();
  },

  getEvents() { return { moveend: this.redraw, viewreset: this.redraw, resize: this.redraw }; },

  redraw() {
    const size = this._map.getSize(), corner = this._map.containerPointToLayerPoint([0, 0]);
    if (!size.x || !size.y) return;
    for (const sheet of [this._lines, this._names]) {
      sheet.setAttribute('width', size.x);
      sheet.setAttribute('height', size.y);
      DomUtil.setPosition(sheet, corner);
    }
    const lines = this._linesIn(size);
    this._lines.replaceChildren(...lines.map(drawLine));
    this._names.replaceChildren(...lines.map(line => drawName(line, size)).filter(Boolean));
  },

  _linesIn(size) {
    const corners = [[0, 0], [size.x, 0], [size.x, size.y], [0, size.y]].map(corner => {
      const place = this._map.containerPointToLatLng(corner);
      return this._frame.toPlane(place.lat, place.lng);
    });
    const from = [0, 1].map(axis => Math.min(...corners.map(corner => corner[axis])));
    const to = [0, 1].map(axis => Math.max(...corners.map(corner => corner[axis])));
    const diagonal = Math.hypot(corners[2][0] - corners[0][0], corners[2][1] - corners[0][1]) / Math.hypot(size.x, size.y);
    const step = roundStep(diagonal * apart * 1.6);
    if (!(step > 0) || (to[0] - from[0]) / step > 60) return [];
    const lines = [];
    for (const axis of [0, 1])
      for (let value = Math.ceil(from[axis] / step) * step; value <= to[axis]; value += step) {
        const ends = [from[1 - axis], to[1 - axis]].map(other => this._frame.toGeographic(...(axis === 0 ? [value, other] : [other, value])));
        lines.push({
          points: ends.map(end => this._map.latLngToContainerPoint([end.latitude, end.longitude])),
          name: this._frame.name(axis, value, step),
        });
      }
    return lines;
  },
});

const namespace = 'http://www.w3.org/2000/svg';

function makeSheet(pane) {
  const sheet = document.createElementNS(namespace, 'svg');
  sheet.setAttribute('class', 'grid-lines leaflet-zoom-hide');
  sheet.setAttribute('aria-hidden', 'true');
  pane.append(sheet);
  return sheet;
}

function part(tag, attributes) {
  const element = document.createElementNS(namespace, tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  return element;
}

function drawLine({ points: [start, end] }) {
  return part('line', { x1: start.x, y1: start.y, x2: end.x, y2: end.y });
}

/** A line's value where it leaves the view: steep lines at the lower edge, flat ones at the right. */
function drawName({ points: [start, end], name }, size) {
  const steep = Math.abs(end.y - start.y) >= Math.abs(end.x - start.x);
  const x = steep ? start.x + (size.y - 6 - start.y) / (end.y - start.y) * (end.x - start.x) + 3 : size.x - 4;
  const y = steep ? size.y - 6 : start.y + (x - start.x) / (end.x - start.x) * (end.y - start.y) - 3;
  if (x < 0 || x > size.x || y < 0 || (!steep && y > size.y - 24)) return null;
  const text = part('text', { x, y, 'text-anchor': steep ? 'start' : 'end' });
  text.textContent = name;
  return text;
}

// Lines of the site grid under the piles, with their values at the edges; latitude and longitude where the site has no grid yet.

import { DomUtil, Layer, setOptions } from 'leaflet/dist/leaflet-src.esm.js';
import { fixed } from './format.js';

const apart = 130; // CSS pixels between lines, about
const colours = { light: { line: '#d3dadd', text: '#57636a' }, dark: { line: '#2a333a', text: '#9aa7ae' } };

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
    setOptions(this, { theme: 'light', ...options });
    this._frame = frameOf(siteGrid);
  },

  onAdd() {
    this._canvas = DomUtil.create('canvas', 'grid-lines leaflet-zoom-hide', this.getPane());
    this._canvas.setAttribute('aria-hidden', 'true');
    this.redraw();
  },

  onRemove() { this._canvas.remove(); },

  getEvents() { return { moveend: this.redraw, viewreset: this.redraw, resize: this.redraw }; },

  show(theme) { this.options.theme = theme; if (this._map) this.redraw(); },

  redraw() {
    const map = this._map, size = map.getSize(), ratio = Math.min(window.devicePixelRatio || 1, 2), canvas = this._canvas;
    if (!size.x || !size.y) return;
    const width = Math.round(size.x * ratio), height = Math.round(size.y * ratio);
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
      canvas.style.width = `${size.x}px`;
      canvas.style.height = `${size.y}px`;
    }
    DomUtil.setPosition(canvas, map.containerPointToLayerPoint([0, 0]));
    const context = canvas.getContext('2d');
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    context.clearRect(0, 0, size.x, size.y);
    for (const line of this._lines(size)) this._drawLine(context, size, line);
  },

  _lines(size) {
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

  _drawLine(context, size, { points: [start, end], name }) {
    const { line, text } = colours[this.options.theme];
    context.strokeStyle = line;
    context.lineWidth = 1;
    context.beginPath();
    context.moveTo(start.x, start.y);
    context.lineTo(end.x, end.y);
    context.stroke();
    context.fillStyle = text;
    context.font = '11px system-ui, sans-serif';
    const steep = Math.abs(end.y - start.y) >= Math.abs(end.x - start.x);
    if (steep) {
      const x = start.x + (size.y - 6 - start.y) / (end.y - start.y) * (end.x - start.x);
      context.textAlign = 'left';
      context.fillText(name, x + 3, size.y - 6);
    } else {
      const y = start.y + (size.x - 4 - start.x) / (end.x - start.x) * (end.y - start.y);
      context.textAlign = 'right';
      if (y < size.y - 24) context.fillText(name, size.x - 4, y - 3);
    }
  },
});

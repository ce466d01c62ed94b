// The piles as one Leaflet layer. Small marks are stamped into pixels from typed arrays; where piles are large enough they are drawn to scale.

import { DomUtil, Layer, latLngBounds, setOptions } from 'leaflet/dist/leaflet-src.esm.js';
import { gridMetres, toUnitSquare } from './mercator.js';
import { colourOf, edgeOf, ink } from './marks.js';
import { makeStamps, pixelOf } from './sprites.js';
import { makeView, stampLine, stampMarks } from './stamping.js';
import { drawToScale } from './to-scale.js';

/** From this diameter of a pile on screen, CSS pixels, piles are circles to scale. */
const toScaleFrom = 14;
/** Part of the view drawn beyond each edge, so that a short drag shows no gap. */
const margin = 0.2;

export const PileLayer = Layer.extend({
  options: { theme: 'light', exaggeration: 0, markSize: null, pixelRatio: null },

  /** @param data what readPileData returns @param selection what applyFilters returns */
  initialize(data, selection, options) {
    setOptions(this, options);
    this.data = data;
    this.selection = selection;
    this.places = toUnitSquare(data.latitude, data.longitude);
    const middle = data.count ? data.latitude[data.count >> 1] : 0;
    this.metres = gridMetres(middle, data.preamble.convergenceDegrees ?? 0, data.preamble.pointScale ?? 1);
    this.changed = new Set(data.preamble.designChanged ?? []);
    this.waiting = new Set((data.preamble.waiting ?? []).map(([place]) => place));
    this.typicalDiameter = middleOf(data.designDiameter);
    this.spacing = typicalSpacing(this.places);
  },

  onAdd(map) {
    this._canvas = DomUtil.create('canvas', 'pile-layer leaflet-zoom-animated', this.getPane());
    this._canvas.setAttribute('aria-hidden', 'true');
    this._context = this._canvas.getContext('2d');
    this.redraw();
    return this;
  },

  onRemove() {
    cancelAnimationFrame(this._waiting);
    this._waiting = 0;
    this._canvas.remove();
    this._image = this._buffer = this._stamps = null;
  },

  getEvents() {
    const events = { moveend: this.redraw, viewreset: this.redraw, resize: this.redraw, move: this._dragged };
    if (this._map.options.zoomAnimation) events.zoomanim = this._animateZoom;
    return events;
  },

  /** Shows another selection, theme or exaggeration. */
  show(change) {
    if (change.selection) this.selection = change.selection;
    Object.assign(this.options, change.options);
    if (change.options?.theme) this._image = null; // the canvas starts afresh: a browser that prints would replay what was drawn before
    if (this._map) this.redraw();
  },

  /** Pixels on screen for one grid metre at the present zoom, CSS pixels. */
  pixelsPerMetre() { return this.metres.perMetre * 256 * 2 ** this._map.getZoom(); },

  /** True where piles are drawn to scale. */
  isToScale() { return this.options.markSize === null && this.typicalDiameter * this.pixelsPerMetre() >= toScaleFrom; },

  /** Width of a mark, CSS pixels: it leaves a gap to the next pile where there is room for one. */
  markSize() {
    if (this.options.markSize !== null) return this.options.markSize;
    const apart = this.spacing * 256 * 2 ** this._map.getZoom();
    return Math.max(2, Math.min(13, Math.round(apart - 1)));
  },

  /** As-built place of a pile on the unit square, its deviation multiplied, or null where none is known. */
  builtPlace(index, exaggeration) {
    const east = this.data.deviationEast[index], north = this.data.deviationNorth[index];
    if (Number.isNaN(east) || Number.isNaN(north)) return null;
    const [dx, dy] = this.metres.shift(east * exaggeration / 1000, north * exaggeration / 1000);
    return [this.places.x[index] + dx, this.places.y[index] + dy];
  },

  redraw() {
    const map = this._map, size = map.getSize(), beyond = size.multiplyBy(margin).round(), full = size.add(beyond.multiplyBy(2));
    if (!size.x || !size.y) return;
    const ratio = this.options.pixelRatio ?? Math.min(window.devicePixelRatio || 1, 2);
    const corner = map.containerPointToLayerPoint(beyond.multiplyBy(-1)).round();
    this._zoom = map.getZoom();
    this._corner = corner;
    this._full = full;
    this._bounds = latLngBounds(map.layerPointToLatLng(corner), map.layerPointToLatLng(corner.add(full)));
    this._fitCanvas(full, ratio);
    DomUtil.setTransform(this._canvas, corner, 1);
    const origin = map.getPixelOrigin().add(corner);
    const view = makeView(this._canvas.width, this._canvas.height, 256 * 2 ** this._zoom * ratio, origin.x * ratio, origin.y * ratio);
    if (this.isToScale()) drawToScale(this._context, this, view, ratio);
    else this._stampAll(view, ratio);
    if (this.changed.size) this._ring(this.changed, [3 * ratio, 2 * ratio], view, ratio);
    if (this.waiting.size) this._ring(this.waiting, [ratio, 2 * ratio], view, ratio);
    this.fire('drawn');
  },

  _fitCanvas(full, ratio) {
    const width = Math.round(full.x * ratio), height = Math.round(full.y * ratio), canvas = this._canvas;
    if (canvas.width === width && canvas.height === height && this._image) return;
    canvas.width = width;
    canvas.height = height;
    canvas.style.width = `${full.x}px`;
    canvas.style.height = `${full.y}px`;
    this._image = this._context.createImageData(width, height);
    this._buffer = new Uint32Array(this._image.data.buffer);
    this._stamps = null;
  },

  _stampAll(view, ratio) {
    const size = this.markSize(), { theme } = this.options;
    if (!this._stamps || this._stampedFor !== size) {
      this._stamps = makeStamps(size, theme, ratio, view.width);
      this._stampedFor = size;
    }
    this._buffer.fill(0);
    this.drawn = stampMarks(this._buffer, view, this.places, this.selection.order, this.selection.shown, this._stamps);
    if (this.options.exaggeration > 0) this._stampVectors(view, ratio);
    this._context.putImageData(this._image, 0, 0);
  },

  /** A ring around each of some piles, dashed where the design was changed after they were built, dotted where they wait: few, so one by one. */
  _ring(places, dashes, view, ratio) {
    const context = this._context, { order } = this.selection, { x, y } = this.places;
    context.save();
    context.strokeStyle = ink[this.options.theme];
    context.lineWidth = 1.5 * ratio;
    context.setLineDash(dashes);
    for (let k = 0; k < order.length; k++) {
      const i = order[k];
      if (!places.has(i)) continue;
      const left = x[i] * view.scale - view.left, top = y[i] * view.scale - view.top;
      if (left < 0 || top < 0 || left > view.width || top > view.height) continue;
      const pixels = this.isToScale() ? this.data.designDiameter[i] * this.pixelsPerMetre() : this.markSize();
      context.beginPath();
      context.arc(left, top, (pixels / 2 + 3) * ratio, 0, 2 * Math.PI);
      context.stroke();
    }
    context.restore();
  },

  _stampVectors(view, ratio) {
    const { theme, exaggeration } = this.options, { order, shown } = this.selection, { x, y } = this.places;
    const colour = pixelOf(ink[theme]);
    const thickness = Math.max(1, Math.round(ratio));
    for (let k = 0; k < order.length; k++) {
      const i = order[k];
      if (shown[i] === 0) continue;
      const fromX = x[i] * view.scale - view.left, fromY = y[i] * view.scale - view.top;
      if (fromX < 0 || fromY < 0 || fromX > view.width || fromY > view.height) continue;
      const built = this.builtPlace(i, exaggeration);
      if (!built) continue;
      stampLine(this._buffer, view.width, view.height, fromX, fromY,
        built[0] * view.scale - view.left, built[1] * view.scale - view.top, thickness, colour);
    }
  },

  // While dragging the canvas moves with the map; it is drawn again only when the view leaves what is drawn.
  _dragged() {
    if (this._waiting || this._map.getZoom() !== this._zoom) return;
    const shift = this._map.containerPointToLayerPoint([0, 0]).subtract(this._corner), size = this._map.getSize();
    const covered = shift.x >= 0 && shift.y >= 0 && shift.x + size.x <= this._full.x && shift.y + size.y <= this._full.y;
    if (!covered) this._waiting = requestAnimationFrame(() => { this._waiting = 0; this.redraw(); });
  },

  _animateZoom(event) {
    const scale = this._map.getZoomScale(event.zoom, this._zoom);
    DomUtil.setTransform(this._canvas, this._map._latLngBoundsToNewLayerBounds(this._bounds, event.zoom, event.center).min, scale);
  },

  /** Colours of a state for parts that are drawn to scale. */
  colours(state) { return { fill: colourOf(state, this.options.theme), edge: edgeOf(state, this.options.theme) }; },
});

/** Median of the positive values, from at most a thousand of them. */
function middleOf(values) {
  const step = Math.max(1, Math.floor(values.length / 1000));
  const known = values.filter((value, i) => i % step === 0 && value > 0).sort();
  return known.length ? known[known.length >> 1] : 1;
}

/** Usual distance between neighbours on the unit square: the area piles share, counted on a coarse raster so that gaps do not matter. */
export function typicalSpacing({ x, y }) {
  const count = x.length;
  if (count < 2) return 1e-7;
  let minX = 1, maxX = 0, minY = 1, maxY = 0;
  for (let i = 0; i < count; i++) {
    if (x[i] < minX) minX = x[i];
    if (x[i] > maxX) maxX = x[i];
    if (y[i] < minY) minY = y[i];
    if (y[i] > maxY) maxY = y[i];
  }
  // Cells of about nine piles if piles filled the rectangle; never more cells than a long thin site makes sense of.
  const cell = Math.max(3 * Math.sqrt((maxX - minX) * (maxY - minY) / count), (maxX - minX + maxY - minY) / count, 1e-10);
  const columns = Math.floor((maxX - minX) / cell) + 1, rows = Math.floor((maxY - minY) / cell) + 1;
  const used = new Uint8Array(columns * rows);
  let cells = 0;
  for (let i = 0; i < count; i++) {
    const at = Math.floor((x[i] - minX) / cell) + columns * Math.floor((y[i] - minY) / cell);
    if (used[at] === 0) { used[at] = 1; cells++; }
  }
  return Math.sqrt(cells * cell * cell / count);
}

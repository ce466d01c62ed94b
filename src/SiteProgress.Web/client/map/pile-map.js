// The map on loaded pile data: layers, filters, pointer, keyboard, address.

import { Map as LeafletMap, latLngBounds, tileLayer } from 'leaflet/dist/leaflet-src.esm.js';
import { readAddress, writeAddress } from './address.js';
import { make, oncePerFrame } from './dom.js';
import { makeDrawing } from './drawing.js';
import { applyFilters } from './filters.js';
import { makeButtons, makeNorthArrow, makeScaleBar } from './furniture.js';
import { GridLines } from './grid-lines.js';
import { PlaceIndex } from './hit-test.js';
import { states } from './marks.js';
import { fromUnitSquare } from './mercator.js';
import { makePanel } from './panel.js';
import { makeList } from './pile-list.js';
import { PileLayer } from './pile-layer.js';
import { followPrinting } from './print.js';
import { makeCard, makeReadOut } from './read-out.js';
import { siteGridFrom } from './site-grid.js';

const mouseReach = 8, fingerReach = 22; // CSS pixels
const nearPixelsPerMetre = 5; // from here on every name of the drawing is shown
const afterRest = 120; // milliseconds without a move before the list of piles in view is made again
const readOutEvery = 250; // milliseconds between messages to the server

/** One map. It owns everything inside `root` and lets go of it in `dispose`. */
export class PileMap {
  constructor(root, data, options, words) {
    Object.assign(this, { root, data, options, words });
    this.siteGrid = siteGridFrom(data.preamble.siteGrid);
    const kept = options.address === false ? new URLSearchParams() : new URL(location.href).searchParams;
    const wanted = readAddress(kept, data.preamble);
    this.filters = { ...wanted.filters, ...options.filters };
    this.exaggeration = options.exaggeration ?? wanted.exaggeration;
    this.listeners = new AbortController();
    this.#build();
    this.#startView(options.view ?? wanted.view, options.view ? null : kept.get('pile') ?? options.pile);
    this.#listen();
    this.#refresh();
  }

  #build() {
    const { words, data, options } = this;
    this.ground = make('div', { class: 'map-ground', tabindex: 0, role: 'application', 'aria-label': words.map });
    const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
    this.map = new LeafletMap(this.ground, {
      zoomControl: false, attributionControl: false, maxZoom: 24, minZoom: 3, zoomSnap: options.tiles ? 1 : 0.5, zoomDelta: 1,
      zoomAnimation: !calm, fadeAnimation: false, inertia: !calm, worldCopyJump: false, bounceAtZoomLimits: false,
    });
    for (const [name, order] of [['grid', 250], ['drawing', 300], ['piles', 400], ['barges', 450], ['gridNames', 460]]) this.map.createPane(name).style.zIndex = order;
    for (const name of ['piles', 'barges', 'gridNames']) this.map.getPane(name).style.pointerEvents = 'none';
    this.selection = applyFilters(data, this.filters);
    this.layer = new PileLayer(data, this.selection, { pane: 'piles', theme: this.theme, exaggeration: this.exaggeration });
    this.layer.stateKey = state => states[state].key;
    this.index = new PlaceIndex(this.layer.places);
    this.grid = new GridLines(this.siteGrid, { pane: 'grid', namePane: 'gridNames' });
    this.scale = makeScaleBar();
    this.ring = make('div', { class: 'map-ring', hidden: true });
    this.map.getPane('piles').append(this.ring);
    this.card = makeCard(words, data, this.layer, number => this.#addressOf(number));
    this.readOut = makeReadOut(words, this.siteGrid);
    this.note = make('p', { class: 'map-vector-note', hidden: true });
    this.ground.append(
      makeButtons(words, { zoomIn: () => this.map.zoomIn(), zoomOut: () => this.map.zoomOut(), showAll: () => this.showAll() }),
      makeNorthArrow(words, data.preamble.convergenceDegrees ?? 0), this.scale.element, this.card.element, this.note,
      make('p', { class: 'map-credit', hidden: !options.tiles?.credit }, options.tiles?.credit ?? ''));
    const main = make('div', { class: 'map-main' }, this.ground, this.readOut.element);
    this.root.replaceChildren(main);
    if (options.panel === false) return;
    this.panel = makePanel(data, words, change => this.change(change), options.drawing?.residualsTimesTooLong);
    this.list = makeList(words, data, this.layer, number => this.#addressOf(number), index => this.#point(index), (index, event) => this.#open(index, event));
    if (matchMedia('(max-width: 700px)').matches) this.panel.element.open = false;
    this.root.append(make('section', { class: 'map-side', 'aria-label': words.filters }, this.panel.element, this.list.element));
  }

  get theme() { return this.root.dataset.theme; }

  #startView(view, number) {
    const { map, options, data } = this;
    const [overlay, drawing] = [options.overlay, options.drawing].map(features => features ? makeDrawing(features, 'drawing', 'barges', 'gridNames') : []);
    const reach = overlay.map(part => part.getBounds()).reduce((all, part) => all.extend(part), latLngBounds([]));
    if (options.tiles) tileLayer(options.tiles.template, { maxNativeZoom: options.tiles.maxZoom ?? 19, maxZoom: 24 }).addTo(map);
    const at = number ? this.indexOf(number) : -1;
    if (at >= 0) map.setView([data.latitude[at], data.longitude[at]], view?.zoom ?? 21);
    else if (view) map.setView([view.latitude, view.longitude], view.zoom);
    else if (reach?.isValid()) map.fitBounds(reach, { padding: [28, 28], animate: false });
    else this.showAll(false);
    this.grid.addTo(map);
    this.layer.addTo(map);
    for (const part of [...drawing, ...overlay]) part.addTo(map);
    if (at >= 0) this.#select(at);
  }

  /** Moves to where all piles are in view. */
  showAll(animate = true) {
    const { x, y } = this.layer.places;
    if (x.length === 0) { this.map.setView([0, 0], 3); return; }
    let minX = 1, maxX = 0, minY = 1, maxY = 0;
    for (let i = 0; i < x.length; i++) {
      minX = Math.min(minX, x[i]); maxX = Math.max(maxX, x[i]);
      minY = Math.min(minY, y[i]); maxY = Math.max(maxY, y[i]);
    }
    const a = fromUnitSquare(minX, maxY), b = fromUnitSquare(maxX, minY);
    this.map.fitBounds(latLngBounds([a.latitude, a.longitude], [b.latitude, b.longitude]), { padding: [28, 28], maxZoom: 21, animate });
  }

  #listen() {
    const { map, ground } = this, signal = this.listeners.signal;
    map.on('moveend zoomend resize', () => this.#moved());
    map.on('zoomstart', () => { this.ring.hidden = true; });
    const pointer = oncePerFrame(event => this.#pointed(event));
    this.pointer = pointer;
    ground.addEventListener('pointermove', pointer, { signal });
    ground.addEventListener('pointerleave', () => { pointer.cancel(); this.#left(); }, { signal });
    ground.addEventListener('pointerdown', event => { this.finger = event.pointerType === 'touch'; }, { signal });
    map.on('click', event => this.#clicked(event));
    ground.addEventListener('keydown', event => { if (event.key === 'Escape') this.#select(-1); }, { signal });
    const dark = matchMedia('(prefers-color-scheme: dark)');
    dark.addEventListener('change', () => this.setTheme(), { signal });
    followPrinting(map, this.root, theme => this.setTheme(theme), signal);
    // A change of size during the observer's own round would make it complain; the next frame is soon enough.
    const resized = oncePerFrame(() => map.invalidateSize({ pan: false }));
    this.sizes = new ResizeObserver(resized);
    this.sizes.observe(ground);
    signal.addEventListener('abort', () => resized.cancel());
  }

  /** Index of a pile by its number, or -1. */
  indexOf(number) {
    for (let i = 0; i < this.data.count; i++) if (this.data.numberOf(i) === number) return i;
    return -1;
  }

  setTheme(theme = themeOf(this.options)) {
    this.root.dataset.theme = theme;
    this.layer.show({ options: { theme } });
  }

  /** Changes filters or exaggeration, as the panel or the page asks. */
  change({ filters, exaggeration }) {
    if (filters) this.filters = { ...this.filters, ...filters };
    if (exaggeration !== undefined) this.exaggeration = exaggeration;
    this.later ??= oncePerFrame(() => this.#refresh());
    this.later();
  }

  #refresh() {
    this.selection = applyFilters(this.data, this.filters);
    this.visible = new Uint8Array(this.data.count);
    for (const i of this.selection.order) this.visible[i] = 1;
    if (this.selected >= 0 && !this.visible[this.selected]) this.#select(-1);
    this.layer.show({ selection: this.selection, options: { exaggeration: this.exaggeration } });
    this.panel?.refresh(this.filters, this.exaggeration, this.selection);
    this.note.hidden = this.exaggeration === 0;
    this.note.textContent = this.exaggeration > 1 ? `${this.words.vectors}: ${this.words.exaggerated(this.exaggeration)}` : `${this.words.vectors}: ${this.words.toScale}`;
    this.#moved();
    this.root.dispatchEvent(new CustomEvent('mapchange', { detail: { filters: this.filters, counts: [...this.selection.counts], shown: this.selection.order.length } }));
  }

  #moved() {
    const centre = this.map.getCenter();
    this.scale.refresh(1 / this.layer.pixelsPerMetre());
    // From afar the names of lines and outlines would lie on one another; zones and barges have room.
    this.ground.classList.toggle('map-near', this.layer.pixelsPerMetre() >= nearPixelsPerMetre);
    if (!this.hovering) this.readOut.show(centre.lat, centre.lng, false);
    this.#placeRing();
    clearTimeout(this.listTimer);
    if (this.list) this.listTimer = setTimeout(() => this.#refreshList(), afterRest); // the picture first
    this.#writeAddress();
  }

  #refreshList() {
    const { min, max } = this.map.getPixelBounds(), factor = 256 * 2 ** this.map.getZoom();
    const inside = this.index.inside(min.x / factor, min.y / factor, max.x / factor, max.y / factor).filter(i => this.visible[i]);
    this.list.refresh(inside, (min.x + max.x) / 2 / factor, (min.y + max.y) / 2 / factor);
  }

  #writeAddress() {
    if (this.options.address === false) return;
    clearTimeout(this.addressTimer);
    // Browsers refuse more than about a hundred changes of the address in half a minute; the last one is enough.
    this.addressTimer = setTimeout(() => {
      const centre = this.map.getCenter(), url = new URL(location.href);
      const view = { latitude: centre.lat, longitude: centre.lng, zoom: this.map.getZoom() };
      url.search = writeAddress(url.searchParams, this.data.preamble, { view, filters: this.filters, exaggeration: this.exaggeration });
      history.replaceState(history.state, '', url);
    }, 300);
  }

  #under(latLng, reach) {
    const factor = 256 * 2 ** this.map.getZoom(), at = this.map.project(latLng);
    const radius = Math.max(reach, this.layer.isToScale() ? this.layer.typicalDiameter / 2 * this.layer.pixelsPerMetre() : 0);
    return this.index.nearest(at.x / factor, at.y / factor, radius / factor, i => this.visible[i] === 1);
  }

  #pointed(event) {
    if (event.pointerType === 'touch') return;
    this.hovering = true;
    const latLng = this.map.mouseEventToLatLng(event);
    const place = this.readOut.show(latLng.lat, latLng.lng, true);
    if (event.buttons === 0) {
      const index = this.#under(latLng, mouseReach);
      this.#point(index);
      this.ground.classList.toggle('map-over-pile', index >= 0);
    }
    this.#report(latLng, place);
  }

  #report(latLng, place) {
    const now = performance.now();
    if (!this.options.dotNet || !this.options.reportPointer || now - (this.reported ?? -Infinity) < readOutEvery) return;
    this.reported = now;
    this.options.dotNet.invokeMethodAsync('OnPointer', latLng.lat, latLng.lng, place?.[0] ?? null, place?.[1] ?? null).catch(() => {});
  }

  #left() {
    this.hovering = false;
    this.#point(-1);
    const centre = this.map.getCenter();
    this.readOut.show(centre.lat, centre.lng, false);
  }

  // A finger covers what it points at: the first tap says which pile it is and offers the link. A mouse opens at once.
  #clicked(event) {
    const index = this.#under(event.latlng, this.finger ? fingerReach : mouseReach);
    if (index < 0 || this.finger) this.#select(index);
    else this.#open(index, event.originalEvent);
  }

  #select(index) {
    this.selected = index;
    this.#point(index);
    if (index >= 0) this.card.show(index, true);
  }

  #point(index) {
    if (index < 0 && this.selected >= 0) { this.pointed = this.selected; this.card.show(this.selected, true); }
    else { this.pointed = index; this.card.show(index); }
    this.#placeRing();
  }

  #placeRing() {
    const index = this.pointed ?? -1;
    this.ring.hidden = index < 0;
    if (index < 0) return;
    const factor = 256 * 2 ** this.map.getZoom(), origin = this.map.getPixelOrigin();
    const size = Math.max(18, this.layer.isToScale() ? this.layer.typicalDiameter * this.layer.pixelsPerMetre() + 10 : this.layer.markSize() + 8);
    this.ring.style.width = this.ring.style.height = `${size}px`;
    this.ring.style.transform = `translate(${this.layer.places.x[index] * factor - origin.x - size / 2}px, ${this.layer.places.y[index] * factor - origin.y - size / 2}px)`;
  }

  #addressOf(number) {
    return this.options.pileAddress ? this.options.pileAddress + encodeURIComponent(number) : null;
  }

  /** Opens a pile's record; true when the page has taken it on itself. */
  #open(index, event) {
    const number = this.data.numberOf(index), address = this.#addressOf(number);
    const asked = new CustomEvent('openpile', { detail: { number }, cancelable: true, bubbles: true });
    if (!this.root.dispatchEvent(asked)) return true;
    if (this.options.dotNet && !this.options.pileAddress) {
      this.options.dotNet.invokeMethodAsync('OnOpenPile', number).catch(() => {});
      return true;
    }
    // From the list the link itself does it. From the map a real link is clicked, so that the page's router sees it like any other.
    if (address && event?.currentTarget?.tagName !== 'A') {
      const link = make('a', { href: address, hidden: true, target: event?.ctrlKey || event?.metaKey ? '_blank' : null });
      this.root.append(link);
      link.click();
      link.remove();
    }
    return false;
  }

  dispose() {
    this.listeners.abort();
    this.sizes.disconnect();
    this.pointer.cancel();
    this.later?.cancel();
    clearTimeout(this.addressTimer);
    clearTimeout(this.listTimer);
    this.map.remove();
    this.root.replaceChildren();
  }
}

/** Theme of a map: the page's choice, or the system's. */
export function themeOf(options) {
  if (options.theme === 'light' || options.theme === 'dark') return options.theme;
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
}

// The map module's one door: create(element, options) gives a handle with update, dispose. README.md describes both.

import 'leaflet/dist/leaflet.css';
import './map.css';
import { make } from './dom.js';
import { readPileData } from './pile-data.js';
import { PileMap, themeOf } from './pile-map.js';
import { wordsFrom } from './words.js';

/**
 * Shows the piles of a site inside `element`, which gives it its size.
 * @param {HTMLElement} element an empty element; the module fills it and empties it again
 * @param {object} options see README.md; `dataUrl` is the only one that must be there
 * @returns a handle: `update(change)`, `dispose()`, `ready` (a promise that settles once the piles are drawn or could not be loaded)
 */
export function create(element, options) {
  let current = { ...options }, map = null, disposed = false, loading = new AbortController();
  const words = wordsFrom(options.words);
  element.classList.add('pile-map');
  element.classList.toggle('pile-map-plain', options.panel === false);
  element.dataset.theme = themeOf(current);

  const say = (text, ...more) => {
    const old = element.querySelector(':scope > .map-message');
    old?.remove();
    if (text) element.append(make('div', { class: 'map-message', role: 'status' }, make('p', {}, text), ...more));
  };

  const load = async (keepView = true) => {
    loading.abort();
    loading = new AbortController();
    const { signal } = loading;
    element.dataset.map = 'loading';
    if (!map) say(words.loading);
    try {
      const [data, drawing] = await Promise.all([
        fetchPiles(current.dataUrl, signal),
        current.drawingUrl ? fetchDrawing(current.drawingUrl, signal) : null,
      ]);
      if (disposed || signal.aborted) return;
      const kept = map && map.data.count > 0 ? { filters: map.filters, exaggeration: map.exaggeration, ...keepView && { view: viewOf(map) } } : null;
      map?.dispose();
      map = new PileMap(element, data, { ...current, drawing, ...kept }, words);
      say(data.count === 0 ? words.empty : drawing === undefined ? words.drawingFailed : '');
      element.dataset.map = 'ready';
      element.dispatchEvent(new CustomEvent('mapready', { detail: { count: data.count } }));
    } catch (error) {
      if (disposed || signal.aborted) return;
      element.dataset.map = 'failed';
      console.error(error);
      say(words.failed, make('button', { type: 'button', onclick: () => load() }, words.retry));
    }
  };

  return {
    ready: load(),
    /**
     * Changes what is shown: `reload: true` fetches the data again and keeps view and filters; `filters`, `exaggeration`, `theme` and any
     * option of create take effect at once; another `overlay` is moved to.
     */
    update(change) {
      if (disposed) return;
      const { filters, exaggeration, reload, ...rest } = change;
      const elsewhere = (rest.dataUrl ?? current.dataUrl) !== current.dataUrl || (rest.drawingUrl ?? current.drawingUrl) !== current.drawingUrl;
      current = { ...current, ...rest };
      if (map) Object.assign(map.options, rest);
      if (rest.overlay) load(false);
      else if (reload || elsewhere) load();
      if (rest.theme) map?.setTheme();
      if (filters || exaggeration !== undefined) map?.change({ filters, exaggeration });
    },
    dispose() {
      disposed = true;
      loading.abort();
      map?.dispose();
      map = null;
      element.replaceChildren();
      element.classList.remove('pile-map', 'pile-map-plain');
      delete element.dataset.map;
    },
  };
}

async function fetchPiles(url, signal) {
  // "no-cache" asks the server whether the kept answer still holds; it does not fetch it again when it does.
  const answer = await fetch(url, { signal, cache: 'no-cache', credentials: 'same-origin' });
  if (!answer.ok) throw new Error(`Pile data: the server answered ${answer.status}.`);
  return readPileData(await answer.arrayBuffer());
}

/** The drawing, or undefined where it cannot be had: the piles are worth showing without it. */
async function fetchDrawing(url, signal) {
  try {
    const answer = await fetch(url, { signal, cache: 'no-cache', credentials: 'same-origin' });
    return answer.ok ? await answer.json() : undefined;
  } catch (error) {
    if (signal.aborted) throw error;
    return undefined;
  }
}

function viewOf({ map }) {
  const centre = map.getCenter();
  return { latitude: centre.lat, longitude: centre.lng, zoom: map.getZoom() };
}

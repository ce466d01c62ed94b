// A map on paper: the same part of the site, black on white, at the width of an A4 page; afterwards all is as before.

/**
 * @param map the Leaflet map @param {HTMLElement} root the module's element @param setTheme called with 'light' and, afterwards, nothing
 * @param {AbortSignal} signal ends it
 */
export function followPrinting(map, root, setTheme, signal) {
  let before = null;
  const begin = () => {
    if (before) return;
    before = { centre: map.getCenter(), zoom: map.getZoom() };
    const bounds = map.getBounds();
    root.classList.add('pile-map-print'); // a fixed size; the browser lays out for paper only after this event
    map.invalidateSize({ pan: false });
    map.fitBounds(bounds, { animate: false });
    setTheme('light');
  };
  const end = () => {
    if (!before) return;
    root.classList.remove('pile-map-print');
    map.invalidateSize({ pan: false });
    map.setView(before.centre, before.zoom, { animate: false });
    setTheme();
    before = null;
  };
  window.addEventListener('beforeprint', begin, { signal });
  window.addEventListener('afterprint', end, { signal });
}

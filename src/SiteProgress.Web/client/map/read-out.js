// Where the pointer is, in both frames, and what lies under it.

import { make } from './dom.js';
import { fixed, geographic, missing } from './format.js';
import { markElement } from './marks.js';
import { holdPointOf, none16, none8 } from './pile-data.js';

/** The line below the map. `show(latitude, longitude, isPointer)` sets it. */
export function makeReadOut(words, siteGrid) {
  const what = make('span', { class: 'read-out-what' }), site = make('span', { class: 'read-out-site' }), earth = make('span', { class: 'read-out-earth' });
  if (siteGrid) site.title = words.readOutError(fixed(siteGrid.largestErrorMetres * 1000, 2));
  const element = make('div', { class: 'map-read-out' }, what, site, earth);
  return {
    element,
    show(latitude, longitude, isPointer) {
      what.textContent = isPointer ? words.pointer : words.middle;
      const place = siteGrid?.toSite(latitude, longitude);
      site.textContent = place
        ? `${siteGrid.axes[0]} ${fixed(place[0], 3)} m  ${siteGrid.axes[1]} ${fixed(place[1], 3)} m`
        : siteGrid ? words.outsideGrid : '';
      earth.textContent = `${geographic(latitude, longitude)} (${words.datum})`;
      return place ?? null;
    },
  };
}

/** The card of the pile under the pointer. `show(index)`; -1 hides it. */
export function makeCard(words, data, layer, addressOf) {
  const element = make('div', { class: 'map-card', hidden: true });
  let shown = -1;
  return {
    element,
    show(index, withLink = false) {
      if (index === shown && !withLink) return;
      shown = index;
      element.hidden = index < 0;
      if (index < 0) return;
      const state = layer.selection.shown[index], number = data.numberOf(index), address = addressOf(number);
      const row = (name, value) => [make('dt', {}, name), make('dd', {}, value)];
      element.replaceChildren(
        make('p', { class: 'map-card-title' }, markElement(state), make('strong', {}, number), ' ', words.states[layer.stateKey(state)]),
        make('dl', {}, ...describe(words, data, index, state).flatMap(([name, value]) => row(name, value))),
        ...(withLink && address ? [make('a', { href: address, class: 'map-card-open' }, words.openPile)] : []));
    },
  };
}

/** What the card says of a pile, as pairs of name and value. */
export function describe(words, data, index, state) {
  const { preamble } = data, rows = [];
  if (data.zone[index] !== none8) rows.push([words.zone, preamble.zones[data.zone[index]]]);
  rows.push([words.planned, `${fixed(data.designDiameter[index], 2)} m`]);
  if (data.preamble.designChanged?.includes(index)) rows.push([words.designChangedName, words.designChanged]);
  const hold = holdPointOf(data, index);
  if (hold !== undefined) rows.push([words.waitsName, words.waits(hold)]);
  if (state === 0 || data.day[index] === none16) return rows;
  rows.push([words.builtOn, preamble.days[data.day[index]]]);
  if (data.barge[index] !== none8) rows.push([words.barge, preamble.barges[data.barge[index]]]);
  const east = data.deviationEast[index], north = data.deviationNorth[index];
  rows.push([words.radial, Number.isNaN(east) ? missing : `${fixed(Math.hypot(east, north), 0)} mm`]);
  if (!Number.isNaN(east)) rows.push([words.components, `${fixed(east, 0)}, ${fixed(north, 0)} mm`]);
  const diameter = data.builtDiameter[index];
  rows.push([words.equivalent, Number.isNaN(diameter) ? missing : `${fixed(diameter, 2)} m`]);
  return rows;
}

// Buttons, scale bar and north arrow that lie on the map.

import { DomEvent } from 'leaflet/dist/leaflet-src.esm.js';
import { make } from './dom.js';
import { fixed } from './format.js';
import { roundStep } from './grid-lines.js';

/** Zoom buttons and "show all". @param actions `zoomIn`, `zoomOut`, `showAll` */
export function makeButtons(words, actions) {
  const button = (sign, title, onclick) => make('button', { type: 'button', title, 'aria-label': title, onclick }, sign);
  const box = make('div', { class: 'map-buttons' },
    button('+', words.zoomIn, actions.zoomIn), button('\u2212', words.zoomOut, actions.zoomOut), button('\u2922', words.zoomAll, actions.showAll));
  DomEvent.disableClickPropagation(box);
  return box;
}

/** A scale bar of a round length; `refresh(map, metresPerPixel)` sets it. */
export function makeScaleBar() {
  const label = make('span'), bar = make('div', { class: 'map-scale' }, label);
  return {
    element: bar,
    refresh(metresPerPixel) {
      const length = roundStep(metresPerPixel * 110);
      bar.style.width = `${length / metresPerPixel}px`;
      label.textContent = length >= 1000 ? `${fixed(length / 1000, 0)} km` : length >= 1 ? `${fixed(length, 0)} m` : `${fixed(length * 1000, 0)} mm`;
    },
  };
}

/** North arrow; the map is drawn with true north up. */
export function makeNorthArrow(words, convergence) {
  const namespace = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(namespace, 'svg');
  svg.setAttribute('viewBox', '0 0 20 34');
  svg.setAttribute('width', '20');
  svg.setAttribute('height', '34');
  const arrow = document.createElementNS(namespace, 'path');
  arrow.setAttribute('d', 'M10 1L16 20L10 16L4 20z');
  const letter = document.createElementNS(namespace, 'text');
  letter.setAttribute('x', '10');
  letter.setAttribute('y', '32');
  letter.setAttribute('text-anchor', 'middle');
  letter.textContent = 'N';
  svg.append(arrow, letter);
  const side = convergence < 0 ? 'W' : 'E';
  const title = convergence ? `${words.north} ${words.gridNorth(`${fixed(Math.abs(convergence), 2)}° ${side}`)}` : words.north;
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', title);
  return make('div', { class: 'map-north', title }, svg);
}

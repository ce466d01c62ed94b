// The nine states of a pile and the mark of each: one definition for map, legend, tables and print.
// A mark is drawn in a box of 16 by 16 units. `fill` is a filled path, `line` a stroked one; a mark may have both.
// Colours are the colour-blind-safe set of Okabe and Ito (2008). Sky blue and orange are too pale for a light ground (2.2 : 1), so filled
// marks carry a darker edge there; tests hold every mark to 3 : 1 against both grounds.

/** Ground of the map by theme; the style sheet uses the same two values. */
export const grounds = { light: '#f3f5f6', dark: '#12171b' };
/** Lines and letters on that ground. */
export const ink = { light: '#1c2226', dark: '#e8ecee' };

const skyBlue = '#56B4E9', blue = '#0072B2', vermilion = '#D55E00', orange = '#E69F00', bluishGreen = '#009E73';
const blackOrWhite = { light: '#000000', dark: '#ffffff' };
const grey = { light: '#6b7378', dark: '#98a2a9' };


const circle = 'M8 2a6 6 0 1 0 0 12a6 6 0 1 0 0-12z';

/**
 * States in the order of the `state` column of the pile data.
 * `colour` is one colour or one for each theme; `edge` is the outline on a light ground.
 */
export const states = [
  { key: 'outstanding', word: 'outstanding', colour: grey, line: 'M8 2.5a5.5 5.5 0 1 0 0 11a5.5 5.5 0 1 0 0-11z', width: 1.8 },
  { key: 'incomplete-record', word: 'incomplete record', colour: skyBlue, edge: '#1c6a9c', fill: 'M8 2a6 6 0 0 0 0 12z', line: 'M8 2.5a5.5 5.5 0 1 0 0 11a5.5 5.5 0 1 0 0-11z', width: 1.5 },
  { key: 'installed', word: 'installed', colour: blue, fill: circle },
  { key: 'finding', word: 'finding', colour: vermilion, fill: 'M8 1L15.5 14.5H.5z' },
  { key: 'non-conformance', word: 'non-conformance', colour: orange, edge: '#8a5f00', fill: 'M8 .5L15.5 8L8 15.5L.5 8z' },
  { key: 'accepted', word: 'accepted', colour: bluishGreen, fill: 'M2.5 2.5h11v11h-11z' },
  { key: 'accepted-concession', word: 'accepted, concession', colour: bluishGreen, line: 'M3 3h10v10H3z', width: 2.2 },
  { key: 'build-again', word: 'build again', colour: blackOrWhite, line: 'M2.5 2.5l11 11M13.5 2.5l-11 11', width: 2.6 },
  { key: 'cancelled', word: 'cancelled', colour: grey, line: 'M3 8h10', width: 2.4 },
];

/** Which state lies on top where marks overlap: what needs a person comes last. */
export const drawingOrder = [8, 0, 2, 5, 6, 1, 7, 4, 3];

/** Colour of a state's mark in a theme ('light' or 'dark'), as #rrggbb. */
export function colourOf(state, theme) {
  const colour = states[state].colour;
  return typeof colour === 'string' ? colour : colour[theme];
}

/** Colour that parts a mark from the ground: its darker edge on a light ground where it has one, else its own colour. */
export function edgeOf(state, theme) {
  return theme === 'light' && states[state].edge ? states[state].edge : colourOf(state, theme);
}

/** Relative luminance of #rrggbb, 0 to 1 (WCAG 2.2, definition of relative luminance). */
export function luminance(colour) {
  const channel = at => {
    const value = parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

/** Contrast ratio of two colours, 1 to 21 (WCAG 2.2). */
export function contrast(first, second) {
  const a = luminance(first), b = luminance(second);
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

/** A mark as an SVG element for legends and lists; its colours follow the theme through the style sheet. */
export function markElement(state, size = 16) {
  const namespace = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(namespace, 'svg');
  svg.setAttribute('viewBox', '0 0 16 16');
  svg.setAttribute('width', size);
  svg.setAttribute('height', size);
  svg.setAttribute('aria-hidden', 'true');
  svg.classList.add('pile-mark', `pile-mark-${states[state].key}`);
  for (const part of ['fill', 'line']) {
    if (!states[state][part]) continue;
    const path = document.createElementNS(namespace, 'path');
    path.setAttribute('d', states[state][part]);
    path.classList.add(`pile-mark-${part}`);
    if (part === 'line') path.setAttribute('stroke-width', states[state].width);
    svg.append(path);
  }
  return svg;
}

/** All marks as one SVG file of symbols, for pages that show them without script: `<use href="/dist/marks.svg#finding">`. */
export function markSheet() {
  const symbols = states.map((state, index) => {
    const colour = typeof state.colour === 'string' ? state.colour : 'currentColor';
    const edge = state.edge ?? colour;
    const fill = state.fill ? `<path d="${state.fill}" fill="${colour}" stroke="${edge}" stroke-width="1"/>` : '';
    const line = state.line ? `<path d="${state.line}" fill="none" stroke="${edge}" stroke-width="${state.width}"/>` : '';
    return `<symbol id="${state.key}" viewBox="0 0 16 16" data-state="${index}">${fill}${line}</symbol>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg">${symbols.join('')}</svg>\n`;
}

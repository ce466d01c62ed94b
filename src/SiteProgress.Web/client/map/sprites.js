// Cuts the stamps of all states for a mark size, a theme and a pixel ratio.

import { colourOf, contrast, edgeOf, grounds, luminance, states } from './marks.js';
import { makeStamp } from './stamping.js';

/** Below this many CSS pixels shapes cannot be told apart; marks are dots of their colour only. */
export const smallestShape = 7;

/** One stamp for each state. @param {number} size width of a mark in CSS pixels @param {number} ratio device pixels for one CSS pixel */
export function makeStamps(size, theme, ratio, rowLength) {
  const pixels = Math.max(1, Math.round(size * ratio));
  const box = pixels + 2 + (pixels % 2 === 0 ? 1 : 0); // odd, so that the mark has a middle pixel
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = box;
  const context = canvas.getContext('2d', { willReadFrequently: true });
  return states.map((_, state) => {
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, box, box);
    context.translate(box / 2, box / 2);
    if (size < smallestShape) drawDot(context, state, theme, pixels);
    else drawMark(context, state, theme, pixels);
    return makeStamp(new Uint32Array(context.getImageData(0, 0, box, box).data.buffer), box, rowLength);
  });
}

/** Draws a state's mark around the origin of a canvas context, `size` canvas pixels wide. */
export function drawMark(context, state, theme, size) {
  const mark = states[state], colour = colourOf(state, theme), edge = edgeOf(state, theme);
  context.save();
  context.scale(size / 16, size / 16);
  context.translate(-8, -8);
  if (mark.fill) {
    const path = new Path2D(mark.fill);
    context.fillStyle = colour;
    context.fill(path);
    if (edge !== colour) { context.strokeStyle = edge; context.lineWidth = 1.2; context.stroke(path); }
  }
  if (mark.line) {
    context.strokeStyle = edge;
    context.lineWidth = Math.max(mark.width, 16 / size); // never thinner than a pixel
    context.stroke(new Path2D(mark.line));
  }
  context.restore();
}

function drawDot(context, state, theme, size) {
  context.fillStyle = dotColour(state, theme);
  if (size <= 3) { context.fillRect(-size / 2, -size / 2, size, size); return; }
  context.beginPath();
  context.arc(0, 0, size / 2, 0, 2 * Math.PI);
  context.fill();
}

/** Colour of a dot that has no room for an edge: the state's own, darkened on a light ground until it stands out 3 : 1. */
export function dotColour(state, theme) {
  let colour = colourOf(state, theme);
  const darker = value => Math.round(value * 0.94).toString(16).padStart(2, '0');
  while (contrast(colour, grounds[theme]) < 3 && luminance(colour) > 0.01)
    colour = '#' + [1, 3, 5].map(at => darker(parseInt(colour.slice(at, at + 2), 16))).join('');
  return colour;
}

/** #rrggbb as a pixel of a little-endian Uint32Array over image data. */
export function pixelOf(colour) {
  const [red, green, blue] = [1, 3, 5].map(at => parseInt(colour.slice(at, at + 2), 16));
  return (0xff000000 | (blue << 16) | (green << 8) | red) >>> 0;
}

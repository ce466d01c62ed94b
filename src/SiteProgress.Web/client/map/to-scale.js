// Piles as circles to scale: the design circle, the as-built circle where it really went, the vector between them, the mark and the number.

import { ink } from './marks.js';
import { none16 } from './pile-data.js';
import { drawMark } from './sprites.js';

const labelFrom = 44; // CSS pixels of diameter

/**
 * @param context canvas context, already the size of the view
 * @param layer the pile layer
 * @param view the part of the unit square the canvas shows
 * @param {number} ratio device pixels for one CSS pixel
 */
export function drawToScale(context, layer, view, ratio) {
  const { data, selection, places, options } = layer, perMetre = layer.metres.perMetre * view.scale;
  context.clearRect(0, 0, view.width, view.height);
  const reach = 3 * layer.typicalDiameter * perMetre + 400 * ratio;
  const inView = [];
  for (const i of selection.order) {
    const x = places.x[i] * view.scale - view.left, y = places.y[i] * view.scale - view.top;
    if (x > -reach && y > -reach && x < view.width + reach && y < view.height + reach) inView.push([i, x, y]);
  }
  layer.drawn = inView.length;
  for (const [i, x, y] of inView) drawCircles(context, layer, view, ratio, i, x, y, perMetre);
  if (options.exaggeration > 0)
    for (const [i, x, y] of inView) drawVector(context, layer, view, ratio, i, x, y);
  const diameter = layer.typicalDiameter * perMetre / ratio, size = Math.min(16, Math.max(7, diameter * 0.45)) * ratio;
  for (const [i, x, y] of inView) {
    const state = selection.shown[i], built = state !== 0 ? layer.builtPlace(i, 1) : null;
    context.save();
    if (built) context.translate(built[0] * view.scale - view.left, built[1] * view.scale - view.top);
    else context.translate(x, y);
    drawMark(context, state, options.theme, size);
    context.restore();
  }
  if (diameter >= labelFrom) drawNumbers(context, layer, ratio, inView, diameter);
}

function drawCircles(context, layer, view, ratio, i, x, y, perMetre) {
  const { data, selection, options } = layer, state = selection.shown[i];
  const design = (data.designDiameter[i] || layer.typicalDiameter) / 2 * perMetre;
  context.lineWidth = ratio;
  context.strokeStyle = ink[options.theme];
  context.globalAlpha = 0.75;
  context.setLineDash([4 * ratio, 3 * ratio]);
  circle(context, x, y, design);
  context.stroke();
  context.setLineDash([]);
  context.globalAlpha = 1;
  if (state === 0 || data.day[i] === none16) return;

  const built = layer.builtPlace(i, 1), { fill, edge } = layer.colours(state);
  if (!built) return;
  const known = data.builtDiameter[i] > 0, radius = known ? data.builtDiameter[i] / 2 * perMetre : design;
  circle(context, built[0] * view.scale - view.left, built[1] * view.scale - view.top, radius);
  context.globalAlpha = 0.22;
  context.fillStyle = fill;
  context.fill();
  context.globalAlpha = 1;
  context.strokeStyle = edge;
  context.lineWidth = (known ? 2 : 1) * ratio; // a thin line: the diameter as built is not known, the design's is drawn
  context.stroke();
}

function drawVector(context, layer, view, ratio, i, x, y) {
  const state = layer.selection.shown[i], built = state !== 0 ? layer.builtPlace(i, layer.options.exaggeration) : null;
  if (!built) return;
  const toX = built[0] * view.scale - view.left, toY = built[1] * view.scale - view.top;
  const length = Math.hypot(toX - x, toY - y), head = Math.min(7 * ratio, length / 2);
  const along = Math.atan2(toY - y, toX - x);
  context.strokeStyle = ink[layer.options.theme];
  context.lineWidth = 1.5 * ratio;
  context.beginPath();
  context.moveTo(x, y);
  context.lineTo(toX, toY);
  for (const side of [-0.45, 0.45]) {
    context.moveTo(toX, toY);
    context.lineTo(toX - head * Math.cos(along + side), toY - head * Math.sin(along + side));
  }
  context.stroke();
}

function drawNumbers(context, layer, ratio, inView, diameter) {
  context.fillStyle = ink[layer.options.theme];
  context.font = `${Math.round(Math.min(13, Math.max(10, diameter / 6)) * ratio)}px system-ui, sans-serif`;
  context.textAlign = 'center';
  for (const [i, x, y] of inView) context.fillText(layer.data.numberOf(i), x, y - (diameter / 2 - 14) * ratio);
}

function circle(context, x, y, radius) {
  context.beginPath();
  context.arc(x, y, radius, 0, 2 * Math.PI);
}

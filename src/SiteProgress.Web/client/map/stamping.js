// Writes marks straight into the pixels of a canvas: one stamp for each state, cut once, then copied. No object per pile.

/**
 * Makes a stamp for a buffer of a given row length from a small square picture.
 * Solid pixels are always written; half-transparent edge pixels only where nothing lies yet, so that marks which overlap stay apart.
 * @param {Uint32Array} pixels size * size pixels
 */
export function makeStamp(pixels, size, rowLength) {
  const half = size >> 1, solid = [], solidColour = [], edge = [], edgeColour = [];
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++) {
      const pixel = pixels[row * size + column], alpha = pixel >>> 24, offset = (row - half) * rowLength + column - half;
      if (alpha > 200) { solid.push(offset); solidColour.push((pixel | 0xff000000) >>> 0); }
      else if (alpha > 24) { edge.push(offset); edgeColour.push(pixel); }
    }
  return {
    reach: half + 1,
    solid: Int32Array.from(solid), solidColour: Uint32Array.from(solidColour),
    edge: Int32Array.from(edge), edgeColour: Uint32Array.from(edgeColour),
  };
}

/** The part of the unit square a buffer shows: pixel = place * scale - left (or top). */
export function makeView(width, height, scale, left, top) {
  return { width, height, scale, left, top };
}

/**
 * Stamps the piles of `order` into `buffer`.
 * @param places `x` and `y` on the unit square
 * @param {Uint8Array} shown state by pile
 * @param stamps one stamp for each state
 * @returns how many fell inside the buffer
 */
export function stampMarks(buffer, view, places, order, shown, stamps) {
  const { width, height, scale, left, top } = view, { x, y } = places;
  let inside = 0;
  for (let k = 0; k < order.length; k++) {
    const i = order[k], column = Math.round(x[i] * scale - left), row = Math.round(y[i] * scale - top);
    const stamp = stamps[shown[i]], reach = stamp.reach;
    if (column < reach || row < reach || column >= width - reach || row >= height - reach) continue;
    const at = row * width + column, { solid, solidColour, edge, edgeColour } = stamp;
    for (let p = 0; p < solid.length; p++) buffer[at + solid[p]] = solidColour[p];
    for (let p = 0; p < edge.length; p++) if (buffer[at + edge[p]] === 0) buffer[at + edge[p]] = edgeColour[p];
    inside++;
  }
  return inside;
}

/** Draws a straight line of `thickness` pixels into the buffer; parts outside are left out. */
export function stampLine(buffer, width, height, fromX, fromY, toX, toY, thickness, colour) {
  const steps = Math.min(20000, Math.max(1, Math.ceil(Math.max(Math.abs(toX - fromX), Math.abs(toY - fromY)))));
  const stepX = (toX - fromX) / steps, stepY = (toY - fromY) / steps;
  for (let k = 0; k <= steps; k++) {
    const column = Math.round(fromX + k * stepX), row = Math.round(fromY + k * stepY);
    if (column < 0 || row < 0 || column + thickness > width || row + thickness > height) continue;
    for (let j = 0; j < thickness; j++) buffer.fill(colour, (row + j) * width + column, (row + j) * width + column + thickness);
  }
}

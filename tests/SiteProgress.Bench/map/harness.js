// Measures one way of drawing: from calling it with the columns in memory to the frame after the picture, then the frames of a drag.

import { readPileData } from '../../../src/SiteProgress.Web/client/map/pile-data.js';
import { sampleAnswer } from '../../../src/SiteProgress.Web/client/map/dev/sample-data.js';

const frame = () => new Promise(resolve => requestAnimationFrame(resolve));

/**
 * @param contender `makeMap(element, bounds)`, `prepare(data)` (not timed: what a peer wants its data turned into) and `add(map, prepared)`
 * @returns milliseconds from `add` to the second frame after it; the first frame's picture is then handed to the screen
 */
export async function firstPaint(contender, count) {
  const data = readPileData(sampleAnswer(count));
  const bounds = [[lowest(data.latitude), lowest(data.longitude)], [highest(data.latitude), highest(data.longitude)]];
  const map = contender.makeMap(document.getElementById('map'), bounds);
  const prepared = contender.prepare(data);
  for (let k = 0; k < 30; k++) await frame(); // the empty map has come to rest
  const start = performance.now();
  contender.add(map, prepared);
  await frame();
  await frame();
  return performance.now() - start;
}

let frames = null;

/** Begins to note the length of every frame, milliseconds. */
export function watchFrames() {
  frames = [];
  let last = performance.now();
  const note = () => {
    if (!frames) return;
    const now = performance.now();
    frames.push(now - last);
    last = now;
    requestAnimationFrame(note);
  };
  requestAnimationFrame(note);
}

/** Ends it, half a second after the last move, and gives the frames. */
export async function framesSeen() {
  const end = performance.now() + 500;
  while (performance.now() < end) await frame();
  const seen = frames;
  frames = null;
  return seen;
}

/** Waits for one frame: moves of the pointer come one a frame, as from a hand. */
export async function oneFrame() { await frame(); }

const lowest = values => values.reduce((least, value) => Math.min(least, value), Infinity);
const highest = values => values.reduce((most, value) => Math.max(most, value), -Infinity);

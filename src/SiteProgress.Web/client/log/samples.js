// Pure work on the samples of a log: the part of the time that is shown, and what the channels say at one sample.

import { numberText } from '../chart/option.js';

const dayOfSeconds = 86_400;

/** The shortest time that is shown, seconds. */
export const shortest = 5;

/** A part of the time kept within the log: never shorter than the shortest, never beyond an end. */
export function within({ from, to }, { first, last }) {
  const length = Math.min(Math.max(to - from, shortest), Math.max(last - first, shortest));
  const begin = Math.min(Math.max((from + to - length) / 2, first), Math.max(first, last - length));
  return { from: begin, to: begin + length };
}

/** Another length about a moment that stays where it is. */
export function zoomed({ from, to }, factor, about, bounds) {
  return within({ from: about - (about - from) * factor, to: about + (to - about) * factor }, bounds);
}

/** The same length, moved just so far that a moment is in it. */
export function moved({ from, to }, moment, bounds) {
  const step = moment < from ? moment - from : moment > to ? moment - to : 0;
  return step ? within({ from: from + step, to: to + step }, bounds) : { from, to };
}

/** Site time of a moment in seconds of the day the log began on. */
export function clockText(seconds, withSeconds) {
  const whole = Math.round(((seconds % dayOfSeconds) + dayOfSeconds) % dayOfSeconds);
  const parts = [Math.floor(whole / 3600) % 24, Math.floor(whole / 60) % 60, whole % 60].map(part => String(part).padStart(2, '0'));
  return parts.slice(0, withSeconds ? 3 : 2).join(':');
}

/** What every channel says at a sample, in the order of the panels; a channel that was not read says so. */
export function readings(panels, index) {
  return panels.flatMap(panel => (panel.series ?? []).map(series => ({ name: series.name, text: reading(panel, series.values[index]) })));
}

function reading(panel, value) {
  if (value === null || value === undefined) return 'not read';
  if (panel.words) return panel.words[value] ?? String(value);
  return `${numberText(value, panel.decimals)}\u2009${panel.unit}`;
}

/** What the casing does at a moment, in the word of the panel that shows it; empty where no phase covers it. */
export function phaseAt(panels, moment) {
  const lanes = panels.find(panel => panel.lanes)?.lanes ?? [];
  return lanes.find(lane => lane.spans.some(([from, to]) => moment >= from && moment < to))?.name ?? '';
}

/** Range of values for an axis: what the panel says, else the values with a little room, never without height. */
export function rangeOf(panel) {
  let [low, high] = [panel.low ?? Infinity, panel.high ?? -Infinity];
  const [fixedLow, fixedHigh] = [Number.isFinite(low), Number.isFinite(high)];
  for (const { values } of panel.series ?? []) {
    for (const value of values) {
      if (value === null) continue;
      if (!fixedLow && value < low) low = value;
      if (!fixedHigh && value > high) high = value;
    }
  }
  if (!Number.isFinite(low)) low = Number.isFinite(high) ? high - 1 : 0;
  if (!Number.isFinite(high)) high = low + 1;
  const room = (high - low) * 0.06 || 0.5;
  return [fixedLow ? low : low - room, fixedHigh ? high : high + room];
}

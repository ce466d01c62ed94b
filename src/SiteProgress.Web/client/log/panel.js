// One panel of the chart as options for uPlot.

import { numberText } from '../chart/option.js';
import { drawBeside } from './drawing.js';
import { clockText, rangeOf } from './samples.js';

/** Width left of the plots, the same in every panel so that one moment lies on one line, CSS pixels. */
const leftOfPlot = 76;

/** Room above the first plot for its clock; Piles/PileElevation.razor leaves the same above its own. */
const clockHeight = 26;

/** On paper the whole record of a pile has one page: panels are lower there, lanes only as far as their names need. */
const paperShare = 0.18, paperLeast = 15, paperLane = 7, paperWords = 0.68, paperClock = 18;

const increments = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600];

/**
 * @param {object} panel from the server: title, unit, decimals, height, series; lanes, sticks, lines, words, low, high where it has them
 * @param {object} place `first` and `last` of the panels, width, marks, `onPaper` for a print
 */
export function panelOptions(panel, place, colourOf, hooks) {
  const line = colourOf('--line'), text = colourOf('--text');
  const clockShown = place.first || place.last, words = place.onPaper ? paperWords : 1;
  const range = panel.lanes ? [0, panel.lanes.length] : rangeOf(panel);
  return {
    width: place.width,
    height: place.onPaper ? paperHeight(panel, clockShown) : panel.height,
    padding: [place.first ? 0 : 4, 14, place.last ? 0 : 2, 0],
    legend: { show: false },
    cursor: {
      sync: { key: place.sync }, drag: { x: true, y: false, setScale: false },
      y: false, points: { size: 6 }, bind: { dblclick: () => () => { hooks.whole(); return null; } },
    },
    scales: { x: { time: false, range: (u, from, to) => [from, to] }, y: { range: () => range } },
    axes: [
      {
        side: place.first ? 0 : 2, size: clockShown ? (place.onPaper ? paperClock : clockHeight) : 0, incrs: increments, space: 56, stroke: text, font: font(11 * words),
        grid: { stroke: line, width: 1 }, ticks: { show: false },
        values: (u, moments, axis, space, step) => (clockShown ? moments.map(moment => clockText(moment, step < 60)) : moments.map(() => '')),
      },
      valueAxis(panel, text, line, words),
    ],
    series: [{}, ...(panel.series ?? []).map((series, place) => seriesOptions(panel, place, colourOf))],
    hooks: {
      draw: [u => drawBeside(u, panel, place.marks, colourOf, words)],
      setSelect: [u => hooks.selected(u)],
      ...(place.first ? { setCursor: [u => hooks.pointed(u)] } : {}),
    },
  };
}

function paperHeight(panel, clockShown) {
  if (panel.lanes) return panel.lanes.length * paperLane;
  const clock = clockShown ? [paperClock, clockHeight] : [0, 0];
  return clock[0] + Math.max(paperLeast, Math.round((panel.height - clock[1]) * paperShare));
}

function valueAxis(panel, text, line, words) {
  const common = { size: leftOfPlot, stroke: text, font: font(11 * words), gap: 4, ticks: { show: false } };
  if (panel.lanes) {
    const { lanes } = panel, names = lanes.map(lane => lane.name).reverse();
    return { ...common, splits: () => names.map((_, place) => place + 0.5), values: () => names, grid: { show: false } };
  }
  if (panel.words) {
    return { ...common, splits: () => Object.keys(panel.words).map(Number), values: (u, values) => values.map(value => panel.words[value]), grid: { show: false } };
  }
  return {
    ...common, space: 26 * words, grid: { stroke: line, width: 1 },
    values: (u, values) => values.map(value => numberText(value, Math.max(0, ...values.map(decimals)))),
  };
}

function decimals(value) {
  return value === null ? 0 : (String(Number(value.toPrecision(9))).split('.')[1] ?? '').length;
}

function seriesOptions(panel, place, colourOf) {
  return {
    stroke: colourOf(place === 0 ? '--blue' : '--text'),
    width: place === 0 ? 1.4 : 1.2,
    dash: place === 0 ? undefined : [4, 3],
    points: { show: false },
    spanGaps: false,
  };
}

function font(pixels) {
  return `${pixels}px system-ui, "DejaVu Sans", sans-serif`;
}

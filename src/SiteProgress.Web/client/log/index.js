// The log chart's one door: create(element, readOut, settings) gives a handle. Piles/LogChart.razor is its one caller.

import uPlot from 'uplot';
import './log.css';
import { panelOptions } from './panel.js';
import { clockText, moved, phaseAt, readings, within, zoomed } from './samples.js';

const shownAround = 60; // seconds on each side of what the page asks to see
const paper = matchMedia('print');

/**
 * Draws the log inside `element`, which gives it its width.
 * @param {HTMLElement} element takes the focus and the keys; its `data-chart` says loading, ready or failed
 * @param {HTMLElement} readOut where the values under the pointer are written
 * @param {object} settings `address` of the samples
 */
export async function create(element, readOut, settings) {
  // The page may have put something else in the chart's place while this module was on its way.
  if (!element) return goneBeforeDrawn;
  const chart = new LogChart(element, readOut);
  await chart.update(settings.address);
  return chart;
}

const goneBeforeDrawn = { update() {}, zoom() {}, look() {}, save() {}, dispose() {} };
let charts = 0;

class LogChart {
  constructor(element, readOut) {
    Object.assign(this, { element, readOut, plots: [], sync: uPlot.sync(`log-${++charts}`), log: null, index: null });
    this.key = event => this.pressed(event);
    this.redraw = () => this.draw();
    element.addEventListener('keydown', this.key);
    this.sized = new ResizeObserver(() => this.resize());
    this.sized.observe(element);
    this.schemes = ['(prefers-color-scheme: dark)', 'print'].map(query => matchMedia(query));
    for (const scheme of this.schemes) scheme.addEventListener('change', this.redraw);
  }

  /** Fetches and draws another log; the older of two answers is dropped. */
  async update(address) {
    this.fetching?.abort();
    this.fetching = new AbortController();
    const { signal } = this.fetching;
    this.element.dataset.chart = 'loading';
    try {
      const answer = await fetch(address, { signal, cache: 'no-cache', credentials: 'same-origin' });
      if (!answer.ok) throw new Error(`Log: the server answered ${answer.status}.`);
      this.log = await answer.json();
      if (signal.aborted) return;
      this.bounds = { first: this.log.moments[0], last: this.log.moments.at(-1) };
      this.window = within({ from: this.bounds.first, to: this.bounds.last }, this.bounds);
      this.index = null;
      this.draw();
      // uPlot draws in a microtask of its own; this one comes after it.
      await new Promise(drawn => queueMicrotask(drawn));
      this.element.dataset.chart = 'ready';
      performance.mark('log-drawn');
    } catch (error) {
      if (signal.aborted) return;
      this.element.dataset.chart = 'failed';
      throw error;
    }
  }

  draw() {
    if (!this.log) return;
    this.drop();
    const styles = getComputedStyle(document.documentElement);
    const colourOf = name => styles.getPropertyValue(name).trim();
    const { panels, moments, marks } = this.log;
    const hooks = { whole: () => this.zoom('whole'), selected: u => this.selected(u), pointed: u => this.pointed(u) };
    this.plots = panels.map((panel, place) => {
      const where = { first: place === 0, last: place === panels.length - 1, width: this.element.clientWidth, marks, sync: this.sync.key, onPaper: paper.matches };
      const options = panelOptions(panel, where, colourOf, hooks);
      if (panel.stepped) for (const series of options.series.slice(1)) series.paths = uPlot.paths.stepped({ align: 1 });
      const plot = new uPlot(options, [moments, ...(panel.series ?? []).map(series => series.values)], this.element);
      this.sync.sub(plot);
      return plot;
    });
    this.show(this.window);
  }

  show(window) {
    this.window = window;
    this.element.dataset.from = window.from;
    this.element.dataset.to = window.to;
    for (const plot of this.plots) plot.setScale('x', { min: window.from, max: window.to });
  }

  /** From a button of the page: in, out or whole. */
  zoom(how) {
    if (!this.log) return;
    const middle = (this.window.from + this.window.to) / 2;
    const about = this.index === null ? middle : Math.min(Math.max(this.log.moments[this.index], this.window.from), this.window.to);
    this.show(how === 'whole' ? within({ from: this.bounds.first, to: this.bounds.last }, this.bounds) : zoomed(this.window, how === 'in' ? 0.5 : 2, about, this.bounds));
  }

  /** Shows a time of the log, seconds after its first sample, with some room about it. */
  look(from, to) {
    if (!this.log) return;
    const { first } = this.bounds;
    this.show(within({ from: first + from - shownAround, to: first + to + shownAround }, this.bounds));
    this.element.scrollIntoView({ block: 'nearest' });
    this.point(this.nearest(first + from));
  }

  selected(u) {
    const { left, width } = u.select;
    if (width > 3) this.show(within({ from: u.posToVal(left, 'x'), to: u.posToVal(left + width, 'x') }, this.bounds));
    if (width > 0) u.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
  }

  pointed(u) {
    const { idx } = u.cursor;
    if (idx !== null && idx !== undefined) this.read(idx);
  }

  read(index) {
    this.index = index;
    const moment = this.log.moments[index];
    const phase = phaseAt(this.log.panels, moment);
    const said = [{ name: 'site time', text: clockText(moment, true) }, ...(phase ? [{ name: 'phase', text: phase }] : []), ...readings(this.log.panels, index)];
    this.readOut.replaceChildren(...said.map(({ name, text }) => {
      const one = document.createElement('div'), term = document.createElement('dt'), value = document.createElement('dd');
      term.textContent = name;
      value.textContent = text;
      one.append(term, value);
      return one;
    }));
  }

  /** Puts the cursor on a sample, as the pointer would. */
  point(index) {
    const moment = this.log.moments[index];
    const window = moved(this.window, moment, this.bounds);
    if (window.from !== this.window.from) this.show(window);
    const [plot] = this.plots;
    plot.setCursor({ left: ((moment - window.from) / (window.to - window.from)) * plot.over.clientWidth, top: plot.over.clientHeight / 2 });
    this.read(index);
  }

  nearest(moment) {
    const { moments } = this.log;
    const found = moments.findIndex(one => one >= moment);
    return found < 0 ? moments.length - 1 : found;
  }

  pressed(event) {
    if (!this.log || event.ctrlKey || event.metaKey || event.altKey) return;
    const last = this.log.moments.length - 1, step = event.shiftKey ? 10 : 1;
    const at = this.index ?? this.nearest(this.window.from);
    const act = {
      ArrowLeft: () => this.point(Math.max(0, at - step)), ArrowRight: () => this.point(Math.min(last, at + step)),
      Home: () => this.point(0), End: () => this.point(last),
      '+': () => this.zoom('in'), '-': () => this.zoom('out'), 0: () => this.zoom('whole'), Escape: () => this.zoom('whole'),
    }[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  /** Saves the panels as one picture, as drawn now. */
  async save(name) {
    const sheets = this.plots.map(plot => plot.ctx.canvas);
    const whole = document.createElement('canvas');
    whole.width = Math.max(...sheets.map(sheet => sheet.width));
    whole.height = sheets.reduce((sum, sheet) => sum + sheet.height, 0);
    const onto = whole.getContext('2d');
    onto.fillStyle = getComputedStyle(document.documentElement).getPropertyValue('--ground').trim();
    onto.fillRect(0, 0, whole.width, whole.height);
    let top = 0;
    for (const sheet of sheets) {
      onto.drawImage(sheet, 0, top);
      top += sheet.height;
    }
    const blob = await new Promise(made => whole.toBlob(made, 'image/png'));
    const link = document.createElement('a');
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  }

  resize() {
    const width = this.element.clientWidth;
    if (width > 0) for (const plot of this.plots) if (plot.width !== width) plot.setSize({ width, height: plot.height });
  }

  drop() {
    for (const plot of this.plots) {
      this.sync.unsub(plot);
      plot.destroy();
    }
    this.plots = [];
  }

  dispose() {
    this.fetching?.abort();
    this.sized.disconnect();
    this.element.removeEventListener('keydown', this.key);
    for (const scheme of this.schemes) scheme.removeEventListener('change', this.redraw);
    this.drop();
  }
}

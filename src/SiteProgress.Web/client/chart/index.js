// The chart module's one door: create(element, page, option, settings) gives a handle. Shell/Chart.razor is its one caller.

import { init, use } from 'echarts/core';
import { BarChart, BoxplotChart, LineChart, ScatterChart } from 'echarts/charts';
import {
  BrushComponent, DatasetComponent, DataZoomComponent, GridComponent, LegendComponent, MarkAreaComponent, MarkLineComponent, MarkPointComponent, TooltipComponent,
} from 'echarts/components';
import { CanvasRenderer, SVGRenderer } from 'echarts/renderers';
import { countPoints, dressed } from './option.js';

use([
  BarChart, BoxplotChart, LineChart, ScatterChart, BrushComponent, DatasetComponent, DataZoomComponent, GridComponent, LegendComponent,
  MarkAreaComponent, MarkLineComponent, MarkPointComponent, TooltipComponent, CanvasRenderer, SVGRenderer,
]);

const manyPoints = 3000;

/**
 * Draws a chart inside `element`, which gives it its size.
 * @param {HTMLElement} element an empty element; its `data-chart` says loading, ready or failed
 * @param {object} page .NET object with `ChosenAsync(address)` and `FramedAsync(frame or null)`
 * @param {object} option ECharts option as data; colours may be `var(--blue)`; an axis or series may carry `decimals`, a series `unit`
 * @param {object} settings `dataAddress`: answers `{ series: [[…], …] }`, put into the series in order; `frames`: whether a frame can be drawn
 */
export async function create(element, page, option, settings) {
  // The page may have put something else in the chart's place while this module was on its way.
  if (!element) return goneBeforeDrawn;
  const chart = new Drawn(element, page, settings);
  await chart.update(option, settings.dataAddress);
  return chart;
}

const goneBeforeDrawn = { update() {}, takeFrame() {}, clearFrame() {}, save() {}, dispose() {} };

class Drawn {
  constructor(element, page, settings) {
    Object.assign(this, { element, page, settings, chart: null, option: null, framing: false });
    this.redraw = () => this.draw();
    this.sized = new ResizeObserver(() => this.chart?.resize());
    this.sized.observe(element);
    this.schemes = ['(prefers-color-scheme: dark)', 'print'].map(query => matchMedia(query));
    for (const scheme of this.schemes) scheme.addEventListener('change', this.redraw);
  }

  /** Shows another option; with an address, its data are fetched first. The older of two answers is dropped. */
  async update(option, dataAddress) {
    this.fetching?.abort();
    this.fetching = new AbortController();
    const { signal } = this.fetching;
    this.element.dataset.chart = 'loading';
    try {
      this.option = dataAddress ? await withData(option, dataAddress, signal) : option;
      if (signal.aborted) return;
      this.draw();
      this.element.dataset.chart = 'ready';
    } catch (error) {
      if (signal.aborted) return;
      this.element.dataset.chart = 'failed';
      throw error;
    }
  }

  draw() {
    if (!this.option) return;
    const renderer = countPoints(this.option) > manyPoints ? 'canvas' : 'svg';
    if (this.chart && this.renderer !== renderer) this.drop();
    this.chart ??= this.start(renderer);
    this.chart.setOption(this.settings.frames ? { ...this.dressed(), brush: brush(this.dressed().color[0]) } : this.dressed(), { notMerge: true });
    if (this.framing) this.takeFrame(true);
  }

  dressed() {
    const styles = getComputedStyle(document.documentElement);
    return dressed(this.option, name => styles.getPropertyValue(name).trim());
  }

  start(renderer) {
    this.renderer = renderer;
    const chart = init(this.element, null, { renderer });
    chart.on('click', ({ data }) => { if (data?.address) this.page.invokeMethodAsync('ChosenAsync', data.address); });
    chart.on('brushEnd', ({ areas }) => this.page.invokeMethodAsync('FramedAsync', frameOf(areas[0])));
    return chart;
  }

  /** Whether the pointer now draws a frame. */
  takeFrame(on) {
    this.framing = on;
    this.chart?.dispatchAction({ type: 'takeGlobalCursor', key: 'brush', brushOption: { brushType: on ? 'rect' : false, brushMode: 'single' } });
  }

  /** Takes the frame away. */
  clearFrame() {
    this.takeFrame(false);
    this.chart?.dispatchAction({ type: 'brush', areas: [] });
  }

  /** Saves the picture as drawn now, as SVG or PNG. */
  async save(kind, name) {
    const { clientWidth: width, clientHeight: height } = this.element;
    const option = this.dressed();
    if (kind === 'svg') {
      const apart = init(null, null, { renderer: 'svg', ssr: true, width, height });
      apart.setOption(option);
      offer(new Blob([apart.renderToSVGString()], { type: 'image/svg+xml' }), name);
      apart.dispose();
      return;
    }
    const canvas = document.createElement('canvas');
    const apart = init(canvas, null, { renderer: 'canvas', width, height, devicePixelRatio: 2 });
    apart.setOption(option);
    apart.renderToCanvas();
    await new Promise(done => canvas.toBlob(blob => { offer(blob, name); done(); }, 'image/png'));
    apart.dispose();
  }

  drop() {
    this.chart?.dispose();
    this.chart = null;
  }

  dispose() {
    this.fetching?.abort();
    this.sized.disconnect();
    for (const scheme of this.schemes) scheme.removeEventListener('change', this.redraw);
    this.drop();
  }
}

async function withData(option, address, signal) {
  const answer = await fetch(address, { signal, cache: 'no-cache', credentials: 'same-origin' });
  if (!answer.ok) throw new Error(`Chart data: the server answered ${answer.status}.`);
  const { series } = await answer.json();
  return { ...option, series: option.series.map((one, index) => (series[index] ? { ...one, data: series[index] } : one)) };
}

function brush(colour) {
  return { toolbox: [], xAxisIndex: 'all', yAxisIndex: 'all', throttleType: 'debounce', throttleDelay: 100, brushStyle: { color: 'transparent', borderColor: colour, borderWidth: 2 } };
}

function frameOf(area) {
  const range = area?.coordRange;
  return range ? { xFrom: range[0][0], xTo: range[0][1], yFrom: range[1][0], yTo: range[1][1] } : null;
}

function offer(blob, name) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

// Pure work on a chart's option: colours by the names of the style sheet, numbers as the pages write them, one look for all charts.

const named = /^var\((--[a-z-]+)\)$/;

/** The option with every `var(--name)` replaced by what `colourOf` says; nothing else is changed, the given object not at all. */
export function withColours(value, colourOf) {
  if (typeof value === 'string') {
    const name = named.exec(value)?.[1];
    return name ? colourOf(name) : value;
  }
  if (Array.isArray(value)) return value.every(item => typeof item === 'number') ? value : value.map(item => withColours(item, colourOf));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, withColours(item, colourOf)]));
}

/** A number as the pages write it: thin spaces between thousands, a real minus sign, a fixed count of decimals where given. */
export function numberText(value, decimals) {
  if (typeof value !== 'number' || !Number.isFinite(value)) return value == null ? '—' : String(value);
  const fixed = decimals === undefined ? String(Number(value.toPrecision(12))) : value.toFixed(decimals);
  const [whole, fraction] = fixed.replace('-', '').split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, '\u2009');
  const negative = fixed.startsWith('-') && /[1-9]/.test(fixed);
  return (negative ? '\u2212' : '') + grouped + (fraction ? `.${fraction}` : '');
}

/** How many points an option draws; above a few thousand a canvas is quicker than elements. */
export function countPoints(option) {
  return list(option.series).reduce((sum, series) => sum + (series.data?.length ?? 0), 0);
}

/** The option as it is drawn: the page's own words and data, in the look that all charts share. */
export function dressed(option, colourOf) {
  const text = colourOf('--text'), quiet = colourOf('--quiet'), line = colourOf('--line');
  const own = withColours(option, colourOf);
  return {
    animation: false,
    textStyle: { fontFamily: 'system-ui, "DejaVu Sans", sans-serif', color: text },
    backgroundColor: colourOf('--ground'),
    color: ['--blue', '--vermilion', '--green', '--orange', '--sky', '--grey'].map(colourOf),
    ...own,
    grid: spread(own.grid ?? {}, grid => ({ left: 12, right: 24, top: 36, bottom: 12, outerBoundsMode: 'same', outerBoundsContain: 'all', ...grid })),
    xAxis: spread(own.xAxis, axis => dressedAxis(axis, text, quiet, line)),
    yAxis: spread(own.yAxis, axis => dressedAxis(axis, text, quiet, line)),
    legend: own.legend && { top: 4, icon: 'roundRect', itemWidth: 14, itemHeight: 8, ...own.legend, textStyle: { color: text, ...own.legend.textStyle } },
    // Text only: what a person typed never becomes markup.
    tooltip: own.tooltip === null ? undefined : {
      renderMode: 'richText', confine: true, trigger: 'axis', backgroundColor: colourOf('--raised'), borderColor: line,
      ...own.tooltip, textStyle: { color: text, fontSize: 13, ...own.tooltip?.textStyle },
    },
    series: list(own.series).map(series => dressedSeries(series, text)),
  };
}

function dressedAxis(axis, text, quiet, line) {
  const { decimals, ...rest } = axis;
  return {
    nameLocation: 'middle', nameGap: 30,
    ...rest,
    nameTextStyle: { color: quiet, ...rest.nameTextStyle },
    axisLine: { lineStyle: { color: quiet }, ...rest.axisLine },
    axisLabel: { color: text, ...(rest.type === 'value' || rest.type === undefined ? { formatter: value => numberText(value, decimals) } : {}), ...rest.axisLabel },
    splitLine: { lineStyle: { color: line }, ...rest.splitLine },
  };
}

function dressedSeries(series, text) {
  const { unit, decimals, ...rest } = series;
  // A limit is a line with its name on it; arrows and a number beyond the edge would say less.
  const marks = rest.markLine && { symbol: 'none', ...rest.markLine, label: { position: 'insideEndTop', formatter: '{b}', color: text, ...rest.markLine.label } };
  const say = value => numberText(value, decimals) + (unit && value != null ? `\u2009${unit}` : '');
  return { ...rest, markLine: marks, tooltip: { valueFormatter: value => (Array.isArray(value) ? value.map(say).join(', ') : say(value)), ...rest.tooltip } };
}

function list(value) {
  return value === undefined || value === null ? [] : Array.isArray(value) ? value : [value];
}

function spread(value, change) {
  return Array.isArray(value) ? value.map(change) : value ? change(value) : value;
}

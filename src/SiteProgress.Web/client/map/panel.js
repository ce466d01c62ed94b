// Legend with counts and filters. A chip that is pressed narrows the map to it; no chip pressed in a group means all of that group.

import { exaggerations } from './address.js';
import { make } from './dom.js';
import { fixed } from './format.js';
import { markElement, states } from './marks.js';

/**
 * @param data what readPileData returns
 * @param words the words to show
 * @param change called with the part of { filters, exaggeration } a person changed
 * @param {number} [residualsTimes] how many times too long the residuals of control points are drawn; left out where there are none
 * @returns `element` and `refresh(filters, exaggeration, selection)`
 */
export function makePanel(data, words, change, residualsTimes) {
  const { zones, barges, days } = data.preamble;
  const groups = [
    makeChips(words.state, 'states', states.map(state => words.states[state.key]), change, index => markElement(index)),
    makeChips(words.zone, 'zones', zones, change),
    makeChips(words.barge, 'barges', barges, change),
  ];
  const day = makeDays(words, days, change), vectors = makeVectors(words, change);
  const total = make('p', { class: 'map-total', role: 'status' });
  const { recordSequence, recordedAt, designRevision } = data.preamble;
  const marks = residualsTimes ? [make('p', { class: 'map-age' }, words.controls(fixed(residualsTimes, 0)))] : [];
  const changed = data.preamble.designChanged?.length ? [make('p', { class: 'map-age' }, words.designChangedNote(fixed(data.preamble.designChanged.length, 0)))] : [];
  const waiting = data.preamble.waiting?.length ? [make('p', { class: 'map-age' }, words.waitsNote(fixed(data.preamble.waiting.length, 0)))] : [];
  const age = [recordSequence ? words.record(fixed(recordSequence, 0), recordedAt) : '', designRevision ? words.design(designRevision) : '']
    .filter(Boolean).map(text => make('p', { class: 'map-age' }, text));
  const element = make('details', { class: 'map-panel', open: true },
    make('summary', {}, words.filters), total, ...groups.map(group => group.element), day.element, vectors.element, ...marks, ...changed, ...waiting, ...age);
  return {
    element,
    refresh(filters, exaggeration, selection) {
      total.textContent = words.shown(fixed(selection.order.length, 0), fixed(data.count, 0));
      groups[0].refresh(filters, selection.counts);
      groups[1].refresh(filters);
      groups[2].refresh(filters);
      day.refresh(filters);
      vectors.refresh(exaggeration);
    },
  };
}

function makeChips(title, key, names, change, markOf) {
  let chosen = null;
  const toggle = index => {
    const next = new Set(chosen ?? []);
    if (!next.delete(index)) next.add(index);
    change({ filters: { [key]: next.size ? next : null } });
  };
  const chips = names.map((name, index) => {
    const count = make('span', { class: 'map-chip-count' });
    const button = make('button', { type: 'button', class: 'map-chip', 'aria-pressed': 'false', onclick: () => toggle(index) },
      ...(markOf ? [markOf(index)] : []), make('span', { class: 'map-chip-name' }, name), ...(markOf ? [count] : []));
    return { button, count };
  });
  const element = make('div', { class: `map-group map-group-${key}`, role: 'group', 'aria-label': title, hidden: names.length === 0 },
    make('p', { class: 'map-group-title', 'aria-hidden': 'true' }, title), ...chips.map(chip => chip.button));
  return {
    element,
    refresh(filters, counts) {
      chosen = filters[key];
      chips.forEach(({ button, count }, index) => {
        button.setAttribute('aria-pressed', String(chosen?.has(index) ?? false));
        button.classList.toggle('map-chip-off', chosen !== null && !chosen.has(index));
        if (counts) count.textContent = fixed(counts[index], 0);
      });
    },
  };
}

function makeDays(words, days, change) {
  const last = days.length - 1;
  const select = make('select', { onchange: () => change({ filters: { day: select.value === '' ? null : Number(select.value), through: null } }) },
    make('option', { value: '' }, words.anyDay), ...days.map((day, index) => make('option', { value: index }, day)));
  const slider = make('input', {
    type: 'range', min: 0, max: last + 1, step: 1,
    oninput: () => change({ filters: { through: Number(slider.value) > last ? null : Number(slider.value), day: null } }),
  });
  const output = make('strong');
  const element = make('div', { class: 'map-group', hidden: days.length === 0 },
    make('label', {}, make('span', {}, words.day), select),
    make('label', { title: words.throughNote }, make('span', {}, words.through, ' ', output), slider));
  return {
    element,
    refresh({ day, through }) {
      select.value = day === null ? '' : String(day);
      slider.value = String(through ?? last + 1);
      output.textContent = through === null ? words.now : days[through];
      slider.setAttribute('aria-valuetext', output.textContent);
    },
  };
}

function makeVectors(words, change) {
  const name = times => (times === 0 ? words.noVectors : times === 1 ? words.toScale : `× ${times}`);
  const select = make('select', { onchange: () => change({ exaggeration: Number(select.value) }) },
    ...exaggerations.map(times => make('option', { value: times }, name(times))));
  return {
    element: make('div', { class: 'map-group' }, make('label', {}, make('span', {}, words.vectors), select)),
    refresh(exaggeration) { select.value = String(exaggeration); },
  };
}

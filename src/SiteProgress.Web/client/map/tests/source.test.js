import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';

const folder = new URL('../', import.meta.url);
const sources = readdirSync(folder).filter(name => /\.(js|css)$/.test(name)).map(name => [name, readFileSync(new URL(name, folder), 'utf8')]);
const banned = [
  [/\b(innerHTML|outerHTML|insertAdjacentHTML|createContextualFragment|document\.write|srcdoc|DOMParser)\b/, 'text from records would become markup'],
  [/\b(eval|Function)\s*\(/, 'the content security policy refuses it'],
  [/\b(bindPopup|popup)\b/, 'a popup takes a string of markup'],
  [/bindTooltip\(\s*(?!make\()/, 'a tooltip takes a string of markup; give it an element'],
  [/\b(window|globalThis)\.\w+\s*=[^=]/, 'nothing is put on window'],
  [/(https?:)?\/\/(?!www\.w3\.org\/)[a-z0-9-]+\.[a-z]/i, 'nothing is fetched from another host'],
];

const faultsIn = text => banned.filter(([pattern]) => pattern.test(text)).map(([, why]) => why);

test('the module makes no markup from text, no global, and asks no other host', () => {
  for (const [name, text] of sources) assert.deepEqual(faultsIn(text), [], name);
});

test('the rule above bites', () => {
  for (const text of ['e.innerHTML = x', 'eval("1")', 'layer.bindPopup(n)', 'layer.bindTooltip(name)', 'window.map = 1', 'fetch("https://tiles.example.org/1")'])
    assert.equal(faultsIn(text).length, 1, text);
});

test('files stay short', () => {
  for (const [name, text] of sources) assert.ok(text.split('\n').length <= 300, name);
});

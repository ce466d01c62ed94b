// The one way this module makes elements. Children that are strings become text nodes, so nothing that came from outside is ever markup.

/**
 * @param {string} tag
 * @param {object} [properties] `class`, `on…` listeners, `aria-…`/`data-…`/other attributes; true and false set and leave out an attribute
 * @param {...(Node|string|number)} children
 */
export function make(tag, properties = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, '');
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(name, value);
  }
  element.append(...children.map(child => (child instanceof Node ? child : String(child))));
  return element;
}

/** Calls `work` at most once a frame, with the last arguments. `cancel()` drops what waits. */
export function oncePerFrame(work) {
  let frame = 0, last;
  const call = (...values) => {
    last = values;
    if (!frame) frame = requestAnimationFrame(() => { frame = 0; work(...last); });
  };
  call.cancel = () => { cancelAnimationFrame(frame); frame = 0; };
  return call;
}

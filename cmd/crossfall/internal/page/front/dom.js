// Small helpers for making elements. Text is always set as text, never as markup.

const svgSpace = 'http://www.w3.org/2000/svg';

function fill(el, props, children) {
  for (const [key, value] of Object.entries(props || {})) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on')) el.addEventListener(key.slice(2), value);
    else if (value === true) el.setAttribute(key, '');
    else el.setAttribute(key, String(value));
  }
  el.append(...children.flat(Infinity).filter((c) => c !== null && c !== undefined && c !== false));
  return el;
}

/** h makes an HTML element. */
export function h(tag, props, ...children) {
  return fill(document.createElement(tag), props, children);
}

/** add puts children into an element; lists are laid flat and nothing is left out. */
export function add(el, ...children) { return fill(el, {}, children); }

/** put puts children in place of those that an element has. */
export function put(el, ...children) {
  el.replaceChildren();
  return fill(el, {}, children);
}

/** s makes an SVG element. */
export function s(tag, props, ...children) {
  return fill(document.createElementNS(svgSpace, tag), props, children);
}

let labels = 0;

/** field is an input with its label, and room for what is wrong with it. */
export function field(label, props, hint) {
  const id = props.id || `f${++labels}`;
  const input = h('input', { type: 'text', autocomplete: 'off', ...props, id });
  const wrong = h('span', { class: 'wrong', id: `${id}-wrong` });
  input.setAttribute('aria-describedby', wrong.id);
  const box = h('div', { class: 'field' }, h('label', { for: id }, label, hint ? h('small', {}, ' ' + hint) : null), input, wrong);
  box.input = input;
  box.fault = (text) => {
    wrong.textContent = text || '';
    if (text) input.setAttribute('aria-invalid', 'true');
    else input.removeAttribute('aria-invalid');
  };
  return box;
}

/** pick is a select with its label; options are words or [word, said]. */
export function pick(label, options, value, props) {
  const id = `f${++labels}`;
  const select = h('select', { ...props, id }, options.map((o) => {
    const [word, said] = Array.isArray(o) ? o : [o, o];
    return h('option', { value: word, selected: word === value }, said);
  }));
  const box = h('div', { class: 'field' }, h('label', { for: id }, label), select);
  box.input = select;
  return box;
}

/** items is a list of findings with their names. */
export function items(list) {
  return h('dl', {}, list.map((i) => [h('dt', {}, i.name), h('dd', {}, i.value)]));
}

/** table with heads. The first cell of a row names it. */
export function table(heads, rows, caption) {
  return h('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': caption },
    h('table', {}, h('caption', {}, caption),
      h('thead', {}, h('tr', {}, heads.map((t) => h('th', { scope: 'col' }, t)))),
      h('tbody', {}, rows.map((row) => h('tr', {}, row.map((t, i) => (i ? h('td', {}, t) : h('th', { scope: 'row' }, t))))))));
}

/** section is what the server says under one heading. */
export function section(said, level = 'h3') {
  return h('section', {}, h(level, {}, said.title), inside(said));
}

/** sections are those of some ids, in their order. */
export function sections(all, ids, level) {
  return all.filter((x) => !ids || ids.includes(x.id)).map((x) => section(x, level));
}

const opened = new Set();

/** fold is a part under its heading that can be opened and shut, and stays so. */
export function fold(title, open, ...children) {
  const box = h('details', { class: 'fold', open: open || opened.has(title) }, h('summary', {}, h('h2', {}, title)), children);
  box.addEventListener('toggle', () => (box.open ? opened.add(title) : opened.delete(title)));
  return box;
}

/** inside is what a section says, without its heading. */
export function inside(said) {
  return [said.items ? items(said.items) : null, said.rows ? table(said.heads, said.rows, said.title) : null, (said.lines || []).map((t) => h('p', {}, t))];
}

/** folds are sections of some ids, each to be opened. */
export function folds(all, ids, open = []) {
  return ids.flatMap((id) => all.filter((x) => x.id === id)).map((x) => fold(x.title, open.includes(x.id), inside(x)));
}

/** say tells something to whoever cannot see it change. */
export function say(text) {
  document.getElementById('live').textContent = text;
}

/** notice shows what went wrong, or nothing. */
export function notice(text, ...more) {
  const box = document.getElementById('notice');
  box.replaceChildren();
  box.hidden = !text;
  if (text) box.append(h('p', {}, text), ...more, h('button', { type: 'button', onclick: () => notice('') }, 'Understood'));
}

/** button of the usual kind. */
export function button(text, onclick, props) {
  return h('button', { type: 'button', onclick, ...props }, text);
}

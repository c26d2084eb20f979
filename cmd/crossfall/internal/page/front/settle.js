// Settle: beds are asked for, arranged, moved and turned, and what follows is shown
// at once. Nothing is written until it is asked for.
import { h, put, add, s, field, button, items, table, folds, sections, say } from './dom.js';
import { Drawing, area, label, spot, north } from './drawing.js';
import { ground, progress } from './look.js';
import { state, decide, told, readPlot } from './state.js';
import { post } from './api.js';

let drawing, parts, beds = null, chosen = 0, shown = null, laid = null, busy = null, again = false, count = null, moved = false;

export function show(main) {
  drawing = new Drawing('The plot with the beds as they are being settled', { role: 'group' });
  parts = { state: h('div', {}), ask: h('section', {}), place: h('section', { class: 'place' }), said: h('section', {}), compare: h('section', {}), one: h('section', {}) };
  add(main, h('h1', {}, 'Settle'), parts.state, parts.ask, drawing.el, parts.place, parts.said, parts.compare, parts.one);
  refresh();
  if (!state.assessment && !state.problem) decide();
}

export function refresh(what) {
  if (what === 'plot' && !moved) beds = null;
  if (what === 'units') { shown = null; decide(); return; }
  if (!moved && state.assessment) take(state.assessment);
  put(parts.state, progress());
  drawAsk();
  draw();
}

/** take makes an assessment the layout that is settled. */
function take(a) {
  shown = a;
  beds = a.beds.map((b) => ({ name: b.name, centre: b.centre, length_m: b.length_m, width_m: b.width_m, bearing_degrees: b.long_side_bearing_degrees, pinned: b.pinned }));
  chosen = Math.min(chosen, Math.max(0, beds.length - 1));
  count ??= beds.length;
}

const per = () => (state.units === 'ft' ? 0.3048 : 1);
const unit = () => (state.units === 'ft' ? 'ft' : 'm');

function drawAsk() {
  if (!beds) { put(parts.ask); return; }
  const many = field('Beds in all', { inputmode: 'numeric', value: String(count ?? beds.length) });
  many.input.addEventListener('change', () => { count = Math.max(0, Math.round(Number(many.input.value)) || 0); });
  put(parts.ask, h('div', { class: 'figures' }, many,
    button('Arrange', () => { count = Math.round(Number(many.input.value)) || beds.length; arrange(false); }, { class: 'main' }),
    button('As many as fit', () => arrange(true)),
    button('Add a bed', another),
    button('Write these beds into the plot', save, { disabled: !moved }),
    button('As the plot has it', () => { moved = false; beds = null; shown = null; refresh('assessment'); say('The beds are as the plot’s files have them.'); }, { disabled: !moved })),
  h('p', { class: 'hint' }, 'Arrange keeps pinned beds where they are and places the rest anew. Drag a bed, or choose it and use its figures or the arrow keys.'));
}

async function arrange(most) {
  await trial({ beds, arrange: true, count, most, units: state.units }, true);
  count = beds.length;
  drawAsk();
  say(`${beds.length} beds are arranged.`);
}

function another() {
  const like = beds[chosen] || { length_m: 3.6, width_m: 1.2, bearing_degrees: 90 };
  const box = drawing.view;
  let n = beds.length + 1;
  while (beds.some((b) => b.name === `bed ${n}`)) n++;
  beds.push({ ...like, name: `bed ${n}`, centre: [box.x, box.y], pinned: true });
  chosen = beds.length - 1;
  count = beds.length;
  move();
}

/** move has the beds as they are now worked out; a newer move overtakes it. */
function move() {
  moved = true;
  draw();
  drawAsk();
  return trial({ beds, arrange: false, count: beds.length, units: state.units }, false);
}

async function trial(body, whole) {
  if (busy) { again = body; return; }
  busy = true;
  moved = true;
  const before = performance.now();
  const answer = await told(() => post('/api/try', body));
  busy = null;
  if (answer) {
    performance.measure('crossfall-try', { start: before });
    if (whole) take(answer);
    else shown = answer;
    const b = shown.beds.find((x) => beds[chosen] && x.name === beds[chosen].name);
    if (b) say(`${b.name}: ${b.edge}.`);
  }
  if (again) {
    const next = again;
    again = false;
    await trial(next, whole);
    return;
  }
  drawAsk();
  draw();
}

async function save() {
  await told(async () => {
    await post('/api/beds', { revision: state.plot.revision, beds });
    moved = false;
    await readPlot();
    decide();
    say('The beds are in the plot’s files.');
  });
}

function corners(b) {
  const turn = ((b.bearing_degrees - shown.shapes.frame.y_axis_bearing_degrees) * Math.PI) / 180;
  const l = [Math.sin(turn) * b.length_m / 2, Math.cos(turn) * b.length_m / 2], w = [Math.cos(turn) * b.width_m / 2, -Math.sin(turn) * b.width_m / 2];
  return [[-1, -1], [-1, 1], [1, 1], [1, -1]].map(([i, j]) => [b.centre[0] + i * l[0] + j * w[0], b.centre[1] + i * l[1] + j * w[1]]);
}

function draw() {
  if (!shown || !beds) return;
  drawing.around(shown.shapes.frame.boundary);
  drawing.draw(ground(shown, { contours: true, water: true, beds: true }), beds.map(bedMark));
  drawing.el.querySelector('.north')?.remove();
  drawing.el.append(north(shown.shapes.frame.y_axis_bearing_degrees, shown.shapes.frame.north));
  drawPlace();
  drawSaid();
}

/** bedMark is a bed that can be dragged, or moved by keys. */
function bedMark(b, i) {
  const told = shown.beds.find((x) => x.name === b.name);
  const g = s('g', {
    'data-drag': i, tabindex: '0', role: 'button', 'aria-pressed': String(i === chosen), class: 'movable' + (i === chosen ? ' chosen' : ''),
    'aria-label': `${b.name}${told ? ', ' + told.edge : ''}${b.pinned ? ', pinned' : ''}`,
  }, area(corners(b), 'bed ' + (told ? told.edge.replaceAll(' ', '-') : '')), told ? told.pegs.map((p) => spot(p, 'peg', 'cross')) : null, label(b.centre, b.name + (b.pinned ? ' •' : ''), 'middle strong'));
  g.addEventListener('pointerdown', (e) => {
    e.stopPropagation();
    choose(i);
    const from = drawing.at(e), was = [...b.centre];
    const follow = (ev) => {
      const at = drawing.at(ev);
      b.centre = [was[0] + at[0] - from[0], was[1] + at[1] - from[1]];
      b.pinned = true;
      moved = true;
      move();
    };
    const end = () => {
      window.removeEventListener('pointermove', follow);
      window.removeEventListener('pointerup', end);
      window.removeEventListener('pointercancel', end);
    };
    window.addEventListener('pointermove', follow);
    window.addEventListener('pointerup', end);
    window.addEventListener('pointercancel', end);
  });
  g.addEventListener('keydown', (e) => {
    const step = e.shiftKey ? 0.5 : 0.1;
    const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] }[e.key];
    if (by) b.centre = [b.centre[0] + by[0], b.centre[1] + by[1]];
    else if (e.key === '[' || e.key === ']') b.bearing_degrees = (b.bearing_degrees + (e.key === ']' ? 1 : 359)) % 360;
    else if (e.key === 'Enter' || e.key === ' ') { choose(i); e.preventDefault(); return; } else return;
    e.preventDefault();
    e.stopPropagation();
    chosen = i;
    b.pinned = true;
    move();
    drawing.svg.querySelector(`[data-drag="${i}"]`)?.focus();
  });
  return g;
}

function choose(i) {
  chosen = i;
  draw();
  drawing.svg.querySelector(`[data-drag="${i}"]`)?.focus();
}

/** drawPlace are the figures of the chosen bed. */
function drawPlace() {
  const b = beds[chosen];
  if (parts.place.contains(document.activeElement) && document.activeElement.tagName === 'INPUT' && parts.place.bed === b) return;
  parts.place.bed = b;
  if (!b) { put(parts.place, h('p', {}, 'No bed yet.')); return; }
  const figure = (said, get, set) => {
    const box = field(said, { inputmode: 'decimal', value: get() });
    box.input.addEventListener('change', () => {
      const v = Number(box.input.value.replace(',', '.'));
      if (!Number.isFinite(v)) { box.fault('write a figure'); return; }
      box.fault('');
      set(v);
      b.pinned = true;
      move();
    });
    return box;
  };
  const length = (m) => (m / per()).toFixed(2);
  const pin = h('label', { class: 'tick' }, h('input', { type: 'checkbox', checked: b.pinned, onchange: (e) => { b.pinned = e.target.checked; moved = true; drawAsk(); draw(); } }), 'Pinned: Arrange leaves it where it is');
  put(parts.place, h('h2', {}, b.name), h('p', { class: 'row', role: 'group', 'aria-label': 'Beds' }, beds.map((x, i) => button(x.name, () => choose(i), { 'aria-pressed': String(i === chosen) }))),
    h('div', { class: 'figures' },
      figure(`Middle, east (${unit()})`, () => length(b.centre[0]), (v) => { b.centre = [v * per(), b.centre[1]]; }),
      figure(`Middle, north (${unit()})`, () => length(b.centre[1]), (v) => { b.centre = [b.centre[0], v * per()]; }),
      figure('Bearing of the long side (degrees)', () => b.bearing_degrees.toFixed(1), (v) => { b.bearing_degrees = ((v % 360) + 360) % 360; }),
      figure(`Length (${unit()})`, () => length(b.length_m), (v) => { b.length_m = v * per(); }),
      figure(`Width (${unit()})`, () => length(b.width_m), (v) => { b.width_m = v * per(); })),
    pin, button('Take this bed out', () => { beds.splice(chosen, 1); chosen = Math.max(0, chosen - 1); count = beds.length; move(); }));
}

function drawSaid() {
  const b = shown.beds.find((x) => beds[chosen] && x.name === beds[chosen].name);
  const stops = shown.cautions.filter((c) => c.mark === 'STOP');
  put(parts.said, h('h2', {}, 'What follows'),
    moved ? h('p', { class: 'hint' }, 'Tried only: nothing is written yet. ' + (shown.storm === 'current' ? '' : shown.storm_said)) : h('p', { class: 'hint' }, shown.storm_said),
    stops.map((c) => h('p', { class: 'stop' }, h('strong', {}, 'STOP '), c.text)),
    table(shown.bed_heads, shown.beds.map((x) => x.row), 'Beds'),
    layoutSaid());
  put(parts.one);
  if (b) {
    add(parts.one, h('h2', {}, b.name), sections(b.sections, ['edge']), folds(b.sections, b.sections.map((x) => x.id).filter((id) => id !== 'edge')),
      shown.cautions.filter((c) => b.cautions.includes(c.id)).map((c) => h('p', { class: c.mark === 'STOP' ? 'stop' : '' }, h('strong', {}, c.mark + ' '), c.text)));
  }
  drawCompare();
}

function layoutSaid() {
  const said = shown.sections.find((x) => x.id === 'layout');
  return said ? sections([said]) : null;
}

/** drawCompare lays two layouts side by side. */
function drawCompare() {
  put(parts.compare, h('h2', {}, 'Side by side'), h('p', { class: 'row' },
    button('Lay this one aside to compare', () => { laid = { view: shown, beds: structuredClone(beds), moved }; drawCompare(); say('Laid aside.'); }),
    laid ? button('Go back to the one laid aside', () => { beds = structuredClone(laid.beds); shown = laid.view; moved = true; move(); }) : null));
  if (!laid) {
    add(parts.compare, items(shown.totals.said));
    return;
  }
  const other = new Map(laid.view.totals.said.map((i) => [i.name, i.value]));
  const small = (a) => { const d = new Drawing('Layout'); d.around(a.shapes.frame.boundary); d.draw(area(a.shapes.frame.boundary, 'ground'), a.beds.map((x) => [area(x.corners, 'bed'), label(x.centre, x.name, 'middle small')])); d.el.querySelector('.tools').remove(); return d.el; };
  add(parts.compare, h('div', { class: 'pair' }, h('figure', {}, h('figcaption', {}, 'Laid aside'), small(laid.view)), h('figure', {}, h('figcaption', {}, 'This one'), small(shown))),
    table(['', 'Laid aside', 'This one', 'Difference'], shown.totals.said.map((i) => [i.name, other.get(i.name) || '–', i.value, difference(i.name)]), 'Two layouts'));
}

/** difference claims one only where the bands do not meet. */
function difference(name) {
  const of = { 'Compost to order': 'compost_m3' }[name];
  if (of) {
    const a = laid.view.totals[of], b = shown.totals[of];
    if (b.low > a.high) return 'more';
    if (b.high < a.low) return 'less';
    return 'no clear difference';
  }
  const whole = { Beds: 'beds', Boards: 'boards', Pegs: 'pegs' }[name];
  if (whole) {
    const d = shown.totals[whole] - laid.view.totals[whole];
    return d ? `${Math.abs(d)} ${d > 0 ? 'more' : 'fewer'}` : 'the same';
  }
  return '';
}

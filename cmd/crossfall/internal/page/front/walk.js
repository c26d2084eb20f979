// Walk: readings are keyed in, each is challenged where it does not agree with the
// others, and the page points at the next spot to measure.
import { h, put, add, field, pick, items, button, say, notice } from './dom.js';
import { Drawing, area, spot, label, fixtures } from './drawing.js';
import { state, readPlot, readSurvey, told, changed } from './state.js';
import { post, Away } from './api.js';
import * as queue from './queue.js';

const kinds = {
  readings: { said: 'Place and height', fields: [['x', 'East, x'], ['y', 'North, y'], ['z', 'Height, z']], words: [['name', 'Name'], ['note', 'Note']] },
  levels: { said: 'Level book line', fields: [['back', 'Backsight'], ['inter', 'Intersight'], ['fore', 'Foresight'], ['level', 'Known height'], ['x', 'East, x'], ['y', 'North, y']], words: [['station', 'Station'], ['note', 'Note']] },
  ties: { said: 'Tapes from two marks', fields: [['a', 'From the first mark'], ['b', 'From the second mark']], words: [['point', 'Point'], ['note', 'Note']] },
};

let kind = 'readings';
let inputs = {};
let drawing = null;
let parts = {};

export function show(main) {
  drawing = new Drawing('The plot with its readings', { ontap: (at) => takePlace(at) });
  parts = { next: h('section', { class: 'next', 'aria-live': 'polite' }), form: h('form', { class: 'reading', novalidate: true }), waiting: h('section', {}), ground: h('section', {}), list: h('section', {}) };
  parts.form.addEventListener('submit', (e) => { e.preventDefault(); book(); });
  add(main, h('h1', {}, 'Walk'), parts.waiting, parts.next, drawing.el, parts.form, parts.ground, parts.list);
  drawForm();
  refresh();
  if (!state.survey) told(readSurvey);
}

export function refresh(what) {
  if (what === 'units') { told(readSurvey); drawForm(); return; }
  if (what === 'stage' || what === 'assessment') return;
  drawNext();
  drawPlot();
  drawWaiting();
  drawGround();
  drawList();
}

function unit() { return state.plot && state.plot.units === 'ft' ? 'feet' : 'metres'; }

function drawForm() {
  const spec = kinds[kind];
  inputs = {};
  const tabs = h('fieldset', { class: 'choice' }, h('legend', {}, 'What was read'), Object.entries(kinds).map(([k, v]) =>
    h('label', {}, h('input', { type: 'radio', name: 'kind', value: k, checked: k === kind, onchange: () => { kind = k; drawForm(); } }), v.said)));
  const own = localStorage.getItem('crossfall.keys') !== 'phone';
  const boxes = spec.fields.map(([key, said]) => {
    const box = field(said, { inputmode: own ? 'none' : 'decimal', class: 'figure', enterkeyhint: 'next', name: key });
    inputs[key] = box;
    return box;
  });
  const words = spec.words.map(([key, said]) => {
    const box = field(said, { name: key });
    inputs[key] = box;
    return box;
  });
  const marks = (state.plot ? state.plot.fixtures : []).filter((f) => f.kind === 'mark').map((f) => f.name);
  const extra = kind !== 'ties' ? [] : [
    inputs.from = pick('First mark', marks, marks[0]), inputs.to = pick('Second mark', marks, marks[1]),
    inputs.side = pick('Side of the line from the first to the second', ['left', 'right'], 'left'),
  ];
  put(parts.form, tabs, h('p', { class: 'hint' }, `Bare figures are ${unit()}; 12' 6", 3.2 m or 45 cm are understood as well.`
    + (kind === 'ties' && marks.length < 2 ? ' Draw two marks first, on the screen Before.' : '')),
  extra, h('div', { class: 'figures' }, boxes), own ? keypad() : null,
  h('div', { class: 'figures' }, words),
  h('p', { class: 'row' }, h('button', { type: 'submit', class: 'main' }, 'Book it'),
    button(own ? 'Use the phone’s own keys' : 'Use large keys', () => { localStorage.setItem('crossfall.keys', own ? 'phone' : 'large'); drawForm(); })));
}

/** keypad writes into the figure that was touched last. */
function keypad() {
  let target = null;
  const figures = () => [...parts.form.querySelectorAll('input.figure')];
  parts.form.addEventListener('focusin', (e) => { if (e.target.classList.contains('figure')) target = e.target; });
  const put = (text) => {
    target ??= figures()[0];
    const at = target.selectionStart ?? target.value.length;
    target.setRangeText(text, at, target.selectionEnd ?? at, 'end');
  };
  const back = () => {
    target ??= figures()[0];
    const at = target.selectionStart ?? target.value.length;
    if (target.selectionEnd > at) target.setRangeText('', at, target.selectionEnd, 'end');
    else if (at > 0) target.setRangeText('', at - 1, at, 'end');
  };
  const next = () => {
    const all = figures();
    target = all[(all.indexOf(target) + 1) % all.length];
    target.focus();
    target.select();
  };
  const feet = state.plot && state.plot.units === 'ft';
  const keys = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '.', '0', '-', ...(feet ? ['\'', '"', ' '] : [])];
  return h('div', { class: 'keypad', role: 'group', 'aria-label': 'Keys for the figures' },
    keys.map((k) => button(k === ' ' ? 'space' : k, () => put(k), { 'aria-label': k === '-' ? 'minus' : k === '\'' ? 'feet' : k === '"' ? 'inches' : undefined, onpointerdown: (e) => e.preventDefault() })),
    button('⌫', back, { 'aria-label': 'Take back a figure', onpointerdown: (e) => e.preventDefault() }),
    button('Next', next, { class: 'wide' }));
}

/** takePlace fills in the place that was tapped on the drawing. */
function takePlace(at) {
  if (!inputs.x) return;
  const per = state.plot && state.plot.units === 'ft' ? 0.3048 : 1;
  inputs.x.input.value = (at[0] / per).toFixed(2);
  inputs.y.input.value = (at[1] / per).toFixed(2);
  say(`Place ${inputs.x.input.value}, ${inputs.y.input.value}`);
}

async function book() {
  const body = {};
  for (const [key, box] of Object.entries(inputs)) {
    body[key] = box.input.value;
    if (box.fault) box.fault('');
  }
  if (kind === 'readings') body.keep = false;
  if (kind === 'ties') body.method = 'tie';
  const missing = required(body);
  if (missing) {
    inputs[missing].fault('key this in');
    inputs[missing].input.focus();
    return;
  }
  const id = queue.add(state.plot.folder, kind, body);
  clearForm();
  const item = await deliver(id);
  if (item && item.wrong) bringBack(item);
}

function required(body) {
  const need = { readings: ['x', 'y', 'z'], levels: ['station'], ties: ['point', 'a', 'b'] }[kind];
  return need.find((key) => !body[key].trim());
}

function clearForm() {
  for (const [key, box] of Object.entries(inputs)) if (!['from', 'to', 'side'].includes(key)) box.input.value = '';
  const first = parts.form.querySelector('input.figure');
  if (first) first.focus();
}

/** bringBack puts a reading that was not understood into the form again. */
function bringBack(item) {
  for (const [key, value] of Object.entries(item.body)) if (inputs[key]) inputs[key].input.value = value;
  const box = inputs[item.wrong.field] || Object.values(inputs)[0];
  box.fault(item.wrong.message);
  box.input.focus();
  queue.forget(item.body.id);
}

/** deliver sends what waits and tells of it; the answer is the reading of this id if it still waits. */
export async function deliver(id) {
  const result = await queue.send(state.plot.folder);
  for (const item of result.booked) say(`Booked: ${item.name || item.body.station || item.body.point || 'a reading'}.`);
  if (result.problem && !(result.problem instanceof Away)) {
    if (result.problem.status === 401) notice('This device needs a new code from the laptop. Nothing that you keyed in is lost.', h('a', { href: '/code' }, 'Key in the code'));
    else notice(result.problem.message);
  }
  if (result.booked.length) {
    await told(async () => { await readPlot(); await readSurvey(); });
  }
  drawWaiting();
  changed('waiting');
  return queue.pending(state.plot.folder).find((x) => x.body.id === id);
}

function drawNext() {
  const next = state.survey && state.survey.next;
  put(parts.next, next
    ? h('div', {}, h('p', {}, h('strong', {}, 'Next: '), next.why), inputs.x ? button('Take this place', () => takePlace(next.at)) : null)
    : h('p', {}, state.survey ? 'Draw the boundary on the screen Before, and the page tells where to read next.' : 'Looking at the readings…'));
}

function drawPlot() {
  const p = state.plot;
  if (!p) return;
  const next = state.survey && state.survey.next;
  drawing.around([...p.boundary, ...p.spots.map((x) => x.at), ...p.fixtures.flatMap((f) => f.points)]);
  const doubtful = new Set((state.survey ? state.survey.suspects : []).map((x) => x.name));
  drawing.draw(area(p.boundary, 'ground'), fixtures(p.fixtures),
    p.spots.map((x) => [spot(x.at, doubtful.has(x.name) ? 'doubtful' : 'height', doubtful.has(x.name) ? 'cross' : 'dot'), label(x.at, heightSaid(x.height_m), 'small beside')]),
    next ? [spot(next.at, 'next', 'ring'), label(next.at, 'next', 'beside strong')] : null);
}

const heightSaid = (m) => (state.units === 'ft' ? (m / 0.3048).toFixed(2) : m.toFixed(2));

function drawWaiting() {
  const all = state.plot ? queue.pending(state.plot.folder) : [];
  const doubted = all.filter((x) => x.doubt || x.wrong);
  const before = parts.waiting.childElementCount;
  put(parts.waiting, doubted.map(challenge));
  if (doubted.length > before) parts.waiting.firstElementChild.focus();
}

/** challenge asks about a reading that does not agree with the others. */
function challenge(item) {
  const again = async (body) => { queue.change(item, body); await deliver(item.body.id); };
  const what = item.kind === 'readings' ? `${item.body.name || 'The reading'} at ${item.body.x}, ${item.body.y}` : item.body.station || item.body.point;
  if (item.wrong) {
    return h('div', { class: 'challenge', role: 'alert', tabindex: '-1' }, h('h2', {}, 'Not understood'),
      h('p', {}, `${what}: ${item.wrong.message}`),
      h('p', { class: 'row' }, button('Key it in again', () => { kind = item.kind; drawForm(); bringBack(item); drawWaiting(); }), button('Throw it away', () => { queue.forget(item.body.id); drawWaiting(); })));
  }
  return h('div', { class: 'challenge', role: 'alert', tabindex: '-1' }, h('h2', {}, 'Is that right?'),
    h('p', {}, `${what}: ${item.doubt.said}`),
    h('p', { class: 'row' }, item.doubt.slips.map((slip) => button(`It is ${slip.text}`, () => again({ z: slip.text }))),
      button(`${item.body.z} is right`, () => again({ keep: true })),
      button('Key it in again', () => { kind = 'readings'; drawForm(); bringBack({ ...item, wrong: { field: 'z', message: 'read the staff again' } }); drawWaiting(); })));
}

function drawGround() {
  const v = state.survey;
  put(parts.ground);
  if (!v) return;
  if (v.ground.length) add(parts.ground, h('h2', {}, 'The ground so far'), items(v.ground));
  if (v.suspects.length) add(parts.ground, h('h2', {}, 'Read again'), items(v.suspects.map((x) => ({ name: x.name, value: x.said }))));
  if (!v.ground.length) add(parts.ground, h('p', {}, `${v.readings} of 3 readings that a ground needs at the least; ten or more tell it much better.`));
}

function drawList() {
  const keyed = state.plot ? state.plot.keyed.filter((k) => k.stands) : [];
  put(parts.list);
  if (!keyed.length) return;
  const last = keyed[keyed.length - 1];
  add(parts.list, h('h2', {}, 'Keyed in here'), h('p', { class: 'row' }, button('Take back the last', () => told(async () => {
    const answer = await post('/api/undo', { id: last.id });
    say(`Taken back: ${answer.removed}`);
    await readPlot();
    await readSurvey();
  })), h('span', {}, last.row)), h('ol', { class: 'keyed', reversed: true }, [...keyed].reverse().slice(0, 12).map((k) => h('li', {}, k.row))));
}


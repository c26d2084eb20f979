// Before: what is on the plot, what may be buried, and what is wished for.
import { h, put, add, field, pick, button, say } from './dom.js';
import { Drawing, area, spot, label, fixtures, way } from './drawing.js';
import { state, readPlot, told, faultSaid, inTurn } from './state.js';
import { post, Problem } from './api.js';
import { towns } from './towns.js';

let drawing, parts, corners = [], edited = null, form = {};

const kinds = [
  ['boundary', 'Outline of the plot'], ['gate', 'Gate'], ['hedge', 'Hedge'], ['fence', 'Fence'], ['wall', 'Wall'], ['shed', 'Shed'], ['polytunnel', 'Polytunnel'], ['other', 'Something else that stands there'],
  ['tree', 'Tree'], ['mark', 'Mark to tape from'], ['heap', 'Heap of compost, or where it will be tipped'], ['service', 'Buried or overhead service'], ['path', 'Path'], ['no-go', 'Ground to keep off'], ['break-line', 'Top or foot of a bank or wall'],
];
const obstacles = ['hedge', 'fence', 'wall', 'shed', 'polytunnel', 'other'];
const lines = ['hedge', 'fence', 'wall', 'service', 'path', 'break-line'];
const points = ['gate', 'heap', 'tree', 'mark'];
let kind = 'boundary';

export function show(main) {
  if (state.plot && !state.plot.is_plot) { begin(main); return; }
  drawing = new Drawing('What is drawn of the plot', { ontap: tapped });
  parts = { faults: h('section', {}), list: h('section', {}), form: h('form', { novalidate: true }), services: h('section', {}), wishes: h('section', {}) };
  parts.form.addEventListener('submit', (e) => { e.preventDefault(); book(); });
  add(main, h('h1', {}, 'Before'), parts.faults, h('h2', {}, 'What is there'), drawing.el, parts.form, parts.list, parts.services, parts.wishes);
  drawForm();
  refresh();
}

export function refresh(what) {
  if (!parts || what === 'stage' || what === 'assessment' || what === 'survey' || what === 'waiting') return;
  drawFaults();
  draw();
  drawList();
  if (!parts.services.contains(document.activeElement)) drawServices();
  if (!parts.wishes.contains(document.activeElement)) drawWishes();
}

/** begin asks for a name when the folder is no plot yet. */
function begin(main) {
  parts = null;
  const name = field('Name of the plot', {});
  const units = pick('Your tape and staff are in', [['m', 'metres'], ['ft', 'feet and inches']], 'm');
  const start = async (body) => told(async () => {
    try {
      await post('/api/begin', body);
    } catch (e) {
      if (e instanceof Problem && e.field === 'name') { name.fault(e.message); name.input.focus(); return; }
      throw e;
    }
    location.hash = '#before';
    location.reload();
  });
  add(main, h('h1', {}, 'Begin a plot'), h('p', {}, `The folder ${state.plot.folder} holds no plot yet. A new folder is made in it, with plain files that any editor opens.`),
    h('form', { novalidate: true, onsubmit: (e) => { e.preventDefault(); start({ name: name.input.value, units: units.input.value, example: false }); } }, name, units, h('p', { class: 'row' }, h('button', { class: 'main', type: 'submit' }, 'Begin'),
      button('Play with an example first', () => start({ name: '', units: 'm', example: true })))));
}

function drawFaults() {
  const bad = state.plot.faults.filter((f) => f.severity !== 'note');
  put(parts.faults);
  if (bad.length) add(parts.faults, h('details', { open: !state.plot.readable && state.plot.spots.length > 2 }, h('summary', {}, state.plot.readable ? `${bad.length} things to know about the files` : 'What is still missing or wrong in the files'), h('ul', {}, bad.map((f) => h('li', {}, faultSaid(f))))));
}

const per = () => (state.plot.units === 'ft' ? 0.3048 : 1);

function tapped(at) {
  if (points.includes(kind)) corners = [];
  corners.push({ x: (at[0] / per()).toFixed(2), y: (at[1] / per()).toFixed(2) });
  drawForm();
  draw();
  say(`Corner ${corners.length} at ${corners[corners.length - 1].x}, ${corners[corners.length - 1].y}`);
}

function placed() {
  return corners.filter((c) => c.x !== undefined && c.x !== '' && c.y !== '').map((c) => [Number(c.x) * per(), Number(c.y) * per()]).filter((p) => p.every(Number.isFinite));
}

function draw() {
  const p = state.plot;
  const all = [...p.boundary, ...p.fixtures.flatMap((f) => f.points), ...p.spots.map((x) => x.at), ...placed()];
  drawing.around(all.length > 1 ? all : [[0, 0], [12 , 12], ...all]);
  const now = placed();
  drawing.draw(area(p.boundary, 'ground'), fixtures(p.fixtures), p.spots.map((x) => spot(x.at, 'height')),
    now.length > 1 ? way(lines.includes(kind) ? now : [...now, now[0]], 'new') : null, now.map((c, i) => [spot(c, 'next', 'cross'), label(c, String(i + 1), 'beside')]));
}

function drawForm() {
  const keep = form;
  const old = (key) => (keep[key] ? keep[key].input.value : '');
  form = {};
  const which = pick('What is it', kinds, kind, { onchange: (e) => { kind = e.target.value; drawForm(); draw(); } });
  form.name = field('Name', { value: old('name') || usualName() });
  if (obstacles.includes(kind) || kind === 'tree') form.height = field('Height above the ground', { inputmode: 'decimal', value: old('height') });
  if (kind === 'other') form.what = field('What it is', { value: old('what') });
  if (kind === 'tree') form.stem = field('Thickness of the stem', { inputmode: 'decimal', value: old('stem') }, '(30 cm)');
  if (kind === 'service') {
    form.carries = pick('It carries', state.plot.words.carriers.map((c) => [c, c === 'unknown' ? 'something else' : c]), old('carries') || 'electricity');
    form.depth = field('Depth, if known', { inputmode: 'decimal', value: old('depth') });
    form.located = field('How it was located', { value: old('located') }, '(left empty: it is only drawn)');
  }
  const ticks = [];
  if (kind === 'tree') ticks.push(form.evergreen = tick('Evergreen'));
  if (kind === 'service') ticks.push(form.overhead = tick('Overhead'));
  const marks = state.plot.fixtures.filter((f) => f.kind === 'mark').map((f) => f.name);
  put(parts.form, h('div', { class: 'figures' }, which, Object.entries(form).filter(([k]) => k !== 'evergreen' && k !== 'overhead').map(([, box]) => box)), ticks,
    h('p', { class: 'hint' }, points.includes(kind) ? 'Tap its place on the drawing, or key it in.' : 'Tap its corners on the drawing one after another, or key them in.'),
    h('ol', { class: 'corners' }, corners.map((c, i) => cornerRow(c, i, marks))),
    h('p', { class: 'row' }, button('Add a corner by x and y', () => { addCorner({ x: '', y: '' }); }), marks.length > 1 ? button('Add a corner by two tapes', () => { addCorner({ from: marks[0], to: marks[1], a: '', b: '', side: 'left' }); }) : null,
      h('button', { type: 'submit', class: 'main' }, edited ? 'Change it' : 'Put it on the plot'), corners.length || edited ? button('Leave it', () => { edited = null; corners = []; form = {}; drawForm(); draw(); }) : null),
    h('p', { class: 'wrong', id: 'feature-wrong', role: 'alert' }));
}

function addCorner(c) {
  if (points.includes(kind)) corners = [];
  corners.push(c);
  drawForm();
  const row = parts.form.querySelectorAll('.corners li')[corners.length - 1];
  row?.querySelector('input')?.focus();
}

function cornerRow(c, i, marks) {
  const take = (key) => (e) => { c[key] = e.target.value; draw(); };
  const out = button('×', () => { corners.splice(i, 1); drawForm(); draw(); }, { 'aria-label': `Take out corner ${i + 1}` });
  if (c.from !== undefined) {
    const choice = (said, key, words) => { const box = pick(said, words, c[key]); box.input.addEventListener('change', take(key)); return box; };
    const text = (said, key) => { const box = field(said, { inputmode: 'decimal', value: c[key] }); box.input.addEventListener('input', take(key)); return box; };
    return h('li', { class: 'figures' }, choice('From', 'from', marks), text('Tape', 'a'), choice('And from', 'to', marks), text('Tape', 'b'), choice('Side of the line', 'side', ['left', 'right']), out);
  }
  const x = field('East, x', { inputmode: 'decimal', value: c.x }), y = field('North, y', { inputmode: 'decimal', value: c.y });
  x.input.addEventListener('input', take('x'));
  y.input.addEventListener('input', take('y'));
  return h('li', { class: 'figures' }, x, y, out);
}

function tick(said) {
  const input = h('input', { type: 'checkbox' });
  const box = h('label', { class: 'tick' }, input, said);
  box.input = input;
  return box;
}

function usualName() {
  if (kind === 'boundary') return 'plot';
  const said = kinds.find(([k]) => k === kind)[0];
  let n = 1;
  const used = new Set(state.plot.fixtures.map((f) => f.name));
  while (used.has(`${said} ${n}`)) n++;
  return `${said} ${n}`;
}

async function book() {
  const real = obstacles.includes(kind) ? 'obstacle' : kind;
  const text = (key) => (form[key] ? form[key].input.value : '');
  const edit = {
    kind: real, name: text('name'), was: edited ? edited.name : '', remove: false,
    corners: corners.map((c) => (c.from !== undefined ? { from: c.from, to: c.to, a: c.a, b: c.b, side: c.side } : { x: c.x, y: c.y })),
    closed: !lines.includes(kind) && !points.includes(kind), what: kind === 'other' ? text('what') : real === 'obstacle' ? kind : '', height: text('height'), stem: text('stem'), depth: text('depth'),
    evergreen: Boolean(form.evergreen && form.evergreen.input.checked), carries: text('carries'), overhead: Boolean(form.overhead && form.overhead.input.checked), located: text('located'),
  };
  const wrong = parts.form.querySelector('#feature-wrong');
  wrong.textContent = '';
  await told(async () => {
    try {
      await inTurn(() => post('/api/features', { revision: state.plot.revision, edits: [edit] }));
    } catch (e) {
      if (e instanceof Problem && e.status === 422) {
        wrong.textContent = e.faults.length ? e.faults.map(faultSaid).join(' ') : e.message;
        if (form[e.field]) form[e.field].fault(e.message);
        return;
      }
      throw e;
    }
    say(`${edit.name} is on the plot.`);
    corners = [];
    edited = null;
    form = {};
    await readPlot();
    drawForm();
    draw();
  });
}

function drawList() {
  const all = state.plot.fixtures.filter((f) => f.kind !== 'bed');
  put(parts.list, h('h2', {}, 'Drawn so far'),
    h('ul', { class: 'things' }, state.plot.boundary_drawn ? h('li', {}, h('span', {}, `outline, ${state.plot.boundary.length - 1} corners`), button('Change', () => edit({ kind: 'boundary', name: 'plot', points: state.plot.boundary.slice(0, -1), what: '' }), { 'aria-label': 'Change the outline' })) : h('li', {}, 'No outline yet: until there is one, the outline of the heights is taken.'),
      all.map((f) => h('li', {}, h('span', {}, `${f.name}: ${f.what || f.carries || f.kind}${f.height_m ? ', ' + (f.height_m / per()).toFixed(1) + (per() === 1 ? ' m' : ' ft') + ' high' : ''}${f.overhead ? ', overhead' : ''}`),
        button('Change', () => edit(f), { 'aria-label': `Change ${f.name}` }), button('Take out', () => remove(f), { 'aria-label': `Take out ${f.name}` })))));
}

function edit(f) {
  edited = f;
  kind = f.kind === 'obstacle' ? (obstacles.includes(f.what) ? f.what : 'other') : f.kind;
  corners = f.points.map((p) => ({ x: (p[0] / per()).toFixed(3).replace(/\.?0+$/, ''), y: (p[1] / per()).toFixed(3).replace(/\.?0+$/, '') }));
  form = {};
  drawForm();
  const set = (key, v) => { if (form[key] && v) form[key].input.value = v; };
  set('name', f.name);
  set('height', f.height_m ? `${f.height_m} m` : '');
  set('what', f.what);
  set('stem', f.stem_diameter_m ? `${f.stem_diameter_m} m` : '');
  set('depth', f.depth_m ? `${f.depth_m} m` : '');
  set('located', f.located);
  set('carries', f.carries);
  if (form.evergreen) form.evergreen.input.checked = f.evergreen;
  if (form.overhead) form.overhead.input.checked = f.overhead;
  draw();
  parts.form.scrollIntoView({ block: 'start' });
}

async function remove(f) {
  if (!confirm(`Take ${f.name} out of the plot’s files? The version before is kept beside them.`)) return;
  await told(async () => {
    await post('/api/features', { revision: state.plot.revision, edits: [{ kind: f.kind, name: f.name, remove: true }] });
    await readPlot();
    say(`${f.name} is taken out.`);
  });
}

/** setSite writes some settings. */
async function setSite(set, said) {
  return told(() => inTurn(async () => {
    const answer = await post('/api/site', { revision: state.plot.revision, set });
    await readPlot();
    say(said || 'Written down.');
    return answer;
  }));
}

const names = { electricity: 'Electricity', gas: 'Gas', water: 'Water', telecoms: 'Telephone, television, fibre', drain: 'Drains and sewers', oil: 'Oil', unknown: 'Anything else (garden lights, watering, old pipes)' };

/** drawServices asks for each of the seven, so that none is passed over. */
function drawServices() {
  const all = state.plot.words.carriers, open = all.filter((c) => said(c) === '').length;
  const unknown = all.filter((c) => said(c) === 'unknown').length;
  put(parts.services, h('h2', {}, 'What is buried or overhead'),
    h('p', {}, [open ? `${open} of ${all.length} are not answered.` : 'All are answered.', unknown ? ` ${unknown} of ${all.length} are not known.` : '',
      open || unknown ? ' What is not known is taken to be there: pegs stay shallow.' : '']),
    state.plot.words.carriers.map(service));
}

const said = (c) => (state.plot.site.services || {})[c] || '';

function service(c) {
  const now = said(c);
  const is = now.startsWith('none') ? 'none' : now === 'drawn' || now.startsWith('located') ? 'drawn' : now ? 'unknown' : '';
  const how = field(is === 'none' ? 'How you know' : 'How it was located', { value: now.replace(/^(none, known by|located by) ?/, '').replace(/^(drawn|unknown)$/, '') });
  how.hidden = is !== 'none' && is !== 'drawn';
  let chosen = is;
  const write = async () => {
    const text = how.input.value.trim();
    if (chosen === 'none' && !text) { how.fault('say how you know, such as: the supplier’s plan of this year'); how.input.focus(); return; }
    how.fault('');
    await setSite({ [`services.${c}`]: { none: `none, known by ${text}`, drawn: text ? `located by ${text}` : 'drawn', unknown: 'unknown' }[chosen] }, `${names[c]} is written down.`);
  };
  const choose = (v) => () => {
    chosen = v;
    how.hidden = v === 'unknown';
    how.querySelector('label').firstChild.textContent = v === 'none' ? 'How you know' : 'How it was located';
    if (v === 'none' && !how.input.value.trim()) how.input.focus();
    else write();
  };
  how.input.addEventListener('change', write);
  const drawn = state.plot.fixtures.some((f) => f.kind === 'service' && f.carries === c);
  return h('fieldset', { class: 'service' }, h('legend', {}, names[c]), [['drawn', 'There, drawn'], ['none', 'None, and how I know'], ['unknown', 'Don’t know']].map(([v, text]) =>
    h('label', { class: 'tick' }, h('input', { type: 'radio', name: `service-${c}`, value: v, checked: is === v, onchange: choose(v) }), text)), how,
  is === 'drawn' && !drawn ? h('p', { class: 'wrong' }, 'It is not drawn yet: put it on the plot above.') : null);
}

const wishes = [
  ['beds.count', 'Beds wanted', 'count'], ['beds.length_m', 'Length of a bed', 'm'], ['beds.width_m', 'Width of a bed', 'm'], ['beds.depth_mm', 'Depth of compost at the least', 'mm'], ['beds.path_m', 'Width of the paths between', 'm'],
  ['boards.lengths_m', 'Lengths of boards on sale', 'm list'], ['boards.heights_mm', 'Heights of boards on sale', 'mm list'], ['boards.thicknesses_mm', 'Thicknesses of boards on sale', 'mm list'],
  ['compost.currency', 'Currency of your prices', 'text'], ['boards.price_per_m', 'Price of board, a metre', 'number'], ['compost.price_per_m3', 'Price of compost, a cubic metre', 'number'], ['pegs.price_each', 'Price of a peg', 'number'], ['carrying.load_litres', 'Litres of compost in a load', 'number'],
];

function drawWishes() {
  const site = state.plot.site;
  const thumb = pick('The ground under a thumb, in the wettest month', [['', 'not said'], ...state.plot.words.thumb.map((t) => [t.word, `${t.word}: ${t.said}`])], site['ground.thumb'], { onchange: (e) => setSite({ 'ground.thumb': e.target.value || null }) });
  const cover = pick('What covers the ground now', [['', 'not said'], ...state.plot.words.cover], site['ground.cover'], { onchange: (e) => setSite({ 'ground.cover': e.target.value || null }) });
  put(parts.wishes, h('h2', {}, 'Place, ground and wishes'), place(site), h('div', { class: 'figures wide' }, thumb, cover), h('div', { class: 'figures' }, wishes.map(([key, text, what]) => wish(key, text, what, site[key]))),
    h('p', { class: 'hint' }, 'What you leave empty is taken as usual, and every result says what was taken.'));
}

/** place asks for the latitude, or for a town to take it from. */
function place(site) {
  const v = site['place.latitude'];
  const box = field('Latitude, or the nearest town', { value: v === null || v === undefined ? '' : String(v), list: 'towns' }, '(50.4, 41.2 S, or a name)');
  const list = h('datalist', { id: 'towns' }, towns.map(([name]) => h('option', { value: name })));
  const told_ = h('p', { class: 'hint' });
  box.input.addEventListener('change', async () => {
    const text = box.input.value.trim();
    const town = towns.find(([name]) => name.toLowerCase() === text.toLowerCase());
    const m = text.match(/^(-?\d+(?:[.,]\d+)?)\s*°?\s*([NS])?$/i);
    let latitude = null;
    if (town) latitude = town[1];
    else if (m) latitude = Number(m[1].replace(',', '.')) * ((m[2] || '').toUpperCase() === 'S' ? -1 : 1);
    else if (text) { box.fault('this town is not known here: write the latitude in degrees, as a map gives it'); return; }
    if (latitude !== null && Math.abs(latitude) > 90) { box.fault('a latitude is between -90 and 90 degrees'); return; }
    box.fault('');
    told_.textContent = town ? `${town[0]} lies at latitude ${town[1]}°, near enough for sun and seasons.` : '';
    await setSite({ 'place.latitude': latitude });
  });
  return h('div', {}, box, list, told_);
}

function wish(key, text, what, value) {
  const feet = state.plot.units === 'ft';
  const base = what.split(' ')[0];
  const toPeople = (v) => (base === 'm' && feet ? round(v / 0.3048) : base === 'mm' && feet ? round(v / 25.4) : round(v));
  const fromPeople = (v) => (base === 'm' && feet ? v * 0.3048 : base === 'mm' && feet ? v * 25.4 : v);
  const shown = value === null || value === undefined ? '' : Array.isArray(value) ? value.map(toPeople).join(', ') : what === 'text' ? value : String(toPeople(value));
  const suffix = base === 'm' ? (feet ? '(ft)' : '(m)') : base === 'mm' ? (feet ? '(in)' : '(mm)') : '';
  const box = field(text, { value: shown, inputmode: what === 'text' ? 'text' : 'decimal' }, suffix);
  box.input.addEventListener('change', async () => {
    const typed = box.input.value.trim();
    const numbers = typed.split(/[;\s]+|,(?=\s)/).filter(Boolean).map((t) => Number(t.replace(',', '.')));
    if (what !== 'text' && typed && (numbers.some((n) => !Number.isFinite(n)) || (!what.endsWith('list') && numbers.length !== 1))) { box.fault(what.endsWith('list') ? 'write figures with a comma and a blank between them' : 'write a figure'); return; }
    if (what === 'count' && typed && !Number.isInteger(numbers[0])) { box.fault('write a whole number'); return; }
    box.fault('');
    const set = !typed ? null : what === 'text' ? typed : what.endsWith('list') ? numbers.map(fromPeople) : fromPeople(numbers[0]);
    try {
      await inTurn(async () => {
        await post('/api/site', { revision: state.plot.revision, set: { [key]: set } });
        await readPlot();
      });
      say(`${text}: written down.`);
    } catch (e) {
      if (e instanceof Problem && e.status === 422) { box.fault(e.faults.length ? e.faults.map((f) => f.message + (f.want ? '; ' + f.want : '')).join('. ') : e.message); return; }
      await told(() => Promise.reject(e));
    }
  });
  return box;
}

const round = (v) => Math.round(v * 1000) / 1000;

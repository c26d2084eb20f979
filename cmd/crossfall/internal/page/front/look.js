// Look: the ground, the water over it, and a storm played.
import { h, put, add, button, items, sections, table, say, pick } from './dom.js';
import { Drawing, area, way, spot, label, arrow, fixtures, north } from './drawing.js';
import { Ground3D } from './ground3d.js';
import { state, decide, stopDeciding, faultSaid, told } from './state.js';
import { get, post, listen } from './api.js';

let drawing, parts, layers, storm, closeStorm;

export function show(main) {
  drawing = new Drawing('The plot with contours and winter water');
  layers = { contours: true, heights: false, water: true, beds: true };
  parts = { state: h('div', {}), layers: h('fieldset', { class: 'choice' }), ground: h('section', {}), solid: h('section', {}), water: h('section', {}), storm: h('section', {}) };
  add(main, h('h1', {}, 'Look'), parts.state, parts.layers, drawing.el, parts.ground, parts.solid, parts.water, parts.storm);
  drawLayers();
  drawSolid();
  told(readStorm);
  refresh();
  if (!state.assessment && !state.problem) decide();
  return () => closeStorm && closeStorm();
}

export function refresh(what) {
  if (what === 'plot' || what === 'waiting' || what === 'survey') return;
  if (what === 'units') { decide(); told(readStorm); return; }
  put(parts.state, progress());
  draw();
  const a = state.assessment;
  put(parts.ground);
  put(parts.water);
  if (!a) return;
  add(parts.ground, h('h2', {}, 'Ground'), a.decision.slice(1, 2).map((t) => h('p', {}, t)), sections(a.sections, ['frame', 'uncertainty', 'suspects', 'next']));
  add(parts.water, h('h2', {}, 'Water'), sections(a.sections, ['water', 'advice']));
}

/** progress tells how far the decision is, or what stands in its way. */
export function progress() {
  if (state.stage) {
    return h('p', { role: 'status', class: 'row' }, `Working on it: ${state.stage}…`, button('Stop', stopDeciding));
  }
  if (state.problem) {
    return h('div', { class: 'challenge' }, h('p', {}, sentence(state.problem.message)), h('ul', {}, state.problem.faults.map((f) => h('li', {}, faultSaid(f)))));
  }
  if (!state.assessment) return h('p', { class: 'row' }, 'Nothing has been decided yet.', button('Decide now', decide));
  return unanswered();
}

/** unanswered reminds of the services that nobody has answered for. */
function unanswered() {
  const services = state.plot.site.services || {};
  const open = state.plot.words.carriers.filter((c) => !services[c]).length;
  if (!open) return h('p', { hidden: true });
  return h('p', { class: 'challenge' }, `${open} of the ${state.plot.words.carriers.length} services are not answered for: they are taken to be there, and pegs stay shallow. `, h('a', { href: '#before' }, 'Answer for them on the screen Before.'));
}

const sentence = (t) => t.charAt(0).toUpperCase() + t.slice(1) + '.';

function drawLayers() {
  const named = { contours: 'Contours', heights: 'Heights', water: 'Winter water', beds: 'With the beds built' };
  put(parts.layers, h('legend', {}, 'Show'), Object.entries(named).map(([key, said]) =>
    h('label', {}, h('input', { type: 'checkbox', checked: layers[key], onchange: (e) => { layers[key] = e.target.checked; draw(); } }), said)));
}

function draw() {
  const a = state.assessment;
  if (!a) return;
  const sh = a.shapes;
  drawing.around(sh.frame.boundary);
  drawing.svg.setAttribute('aria-label', `Plan of the plot. ${a.decision[1] || ''}`);
  drawing.draw(ground(a, layers), layers.beds ? beds(a) : null);
  drawing.el.querySelector('.north')?.remove();
  drawing.el.append(north(sh.frame.y_axis_bearing_degrees, sh.frame.north));
}

/** ground is what is drawn under the beds. */
export function ground(a, show) {
  const sh = a.shapes;
  const every = Math.max(1, Math.round(sh.contours.length / 12));
  const paths = show.beds ? sh.paths_with_beds : sh.paths;
  return [area(sh.frame.boundary, 'ground'),
    show.contours ? sh.contours.map((c, i) => [way(c.closed ? [...c.points, c.points[0]] : c.points, 'contour'), i % every ? null : label(c.points[Math.floor(c.points.length / 2)], heightSaid(c.level_m), 'small level')]) : null,
    sh.hollows.map((x) => area(x.outline, 'hollow')),
    show.water ? paths.map((p) => [way(p.points, 'water'), arrow(p.points, 'water')]) : null,
    sh.drains.map((d) => way(d.points || [], 'drain')),
    fixtures(sh.features),
    show.heights ? sh.heights.map((x) => [spot(x.at, 'height'), label(x.at, heightSaid(x.height_m), 'small beside')]) : null];
}

/** beds as they are built. */
export function beds(a) {
  return a.beds.map((b) => [area(b.corners, 'bed ' + b.edge.replaceAll(' ', '-')), b.pegs.map((p) => spot(p, 'peg', 'cross')), label(b.centre, b.name, 'middle strong')]);
}

const heightSaid = (m) => (state.units === 'ft' ? (m / 0.3048).toFixed(2) : m.toFixed(2));

function drawSolid() {
  const view = new Ground3D();
  const open = h('details', {}, h('summary', {}, 'Turn the ground in your hand'), view.el);
  open.addEventListener('toggle', () => {
    if (open.open) told(async () => view.show(await get('/api/ground?nodes=48'), state.assessment));
  });
  put(parts.solid, open);
}

// The storm.

async function readStorm() {
  storm = await get('/api/storm?units=' + state.units);
  drawStorm();
  followStorm();
}

function followStorm() {
  if (closeStorm) closeStorm();
  closeStorm = listen('/api/storm/events', {
    storm: (v) => {
      if (v.seen) {
        storm.storms = [...storm.storms.filter((x) => x.return_period_years !== v.seen.return_period_years), v.seen];
        storm.shown = v.seen.return_period_years;
      }
      storm.playing = v;
      drawStorm();
      if (!v.playing) {
        closeStorm();
        if (v.done > 0 && !storm.fetched) { // it has just ended: what it says is in the file
          told(async () => { storm = { ...await get('/api/storm?units=' + state.units), fetched: true, shown: v.return_period_years }; drawStorm(); say('The storm has been played.'); decide(); });
        }
      }
    },
  });
}

async function play(years) {
  await told(async () => {
    storm.playing = await post('/api/storm', { return_period_years: years });
    storm.fetched = false;
    drawStorm();
    followStorm();
  });
}

function drawStorm() {
  const p = storm.playing || {};
  const said = { 'not run': 'No storm has been played over this plot.', current: 'The storm played is of this plot as it is now.', 'out of date': 'The storm played was of other beds or another ground; it has no say until it is played again.' };
  put(parts.storm, h('h2', {}, 'A winter storm'), h('p', {}, said[storm.state]),
    p.problem ? h('p', { class: 'wrong' }, p.problem) : null,
    p.playing
      ? h('div', {}, h('p', { role: 'status' }, `Playing the storm met once in ${p.return_period_years} years${p.expected ? ', about ' + p.expected : ''}: ${Math.round(100 * p.done)} % done.`),
        h('progress', { max: '1', value: p.done, 'aria-label': 'Share of the storm that is played' }), button('Stop it', () => told(() => post('/api/storm/stop', {}))))
      : h('p', { class: 'row' }, 'Play the storm met once in', [2, 10, 30].map((y) => button(`${y} years`, () => play(y)))),
    storm.storms.length ? player() : null,
    storm.claims.length ? items(storm.claims) : null);
}

/** player shows a storm over time, with the beds and without. */
function player() {
  const shown = storm.storms.find((x) => x.return_period_years === storm.shown) || storm.storms[0];
  const with_ = new Drawing('Depth of water with the beds'), without = new Drawing('Depth of water without the beds');
  const time = h('output', {});
  const slider = h('input', { type: 'range', min: '0', max: String(shown.with_beds.length - 1), value: String(storm.at || 0), 'aria-label': 'Time since the storm began' });
  const put = () => {
    storm.at = Number(slider.value);
    const minutes = shown.with_beds[storm.at].minutes;
    time.textContent = `after ${Math.round(minutes)} minutes`;
    slider.setAttribute('aria-valuetext', time.textContent);
    frame(with_, shown.with_beds[storm.at], true);
    if (shown.without_beds && shown.without_beds[storm.at]) frame(without, shown.without_beds[storm.at], false);
  };
  slider.addEventListener('input', put);
  const runner = button('Play', () => {
    if (runner.timer) {
      clearInterval(runner.timer);
      runner.timer = null;
      runner.textContent = 'Play';
      return;
    }
    runner.textContent = 'Pause';
    if (Number(slider.value) === shown.with_beds.length - 1) slider.value = '0';
    runner.timer = setInterval(() => {
      if (!slider.isConnected || Number(slider.value) >= shown.with_beds.length - 1) {
        clearInterval(runner.timer);
        runner.timer = null;
        runner.textContent = 'Play';
        return;
      }
      slider.value = String(Number(slider.value) + 1);
      put();
    }, 700);
  });
  const which = pick('Storm met once in', storm.storms.map((x) => [String(x.return_period_years), `${x.return_period_years} years`]), String(shown.return_period_years),
    { onchange: (e) => { storm.shown = Number(e.target.value); storm.at = 0; drawStorm(); } });
  requestAnimationFrame(put);
  return h('div', {}, which, h('div', { class: 'row' }, runner, slider, time),
    h('div', { class: 'pair' }, h('figure', {}, h('figcaption', {}, 'With the beds'), with_.el), h('figure', {}, h('figcaption', {}, 'Without'), without.el)),
    h('p', { class: 'hint' }, 'The larger the square, the deeper the water: over 1, 3, 10 and 30 mm on the mean over it.'),
    shown.said ? items(shown.said) : null, shown.rows && shown.rows.length ? table(shown.heads, shown.rows, 'Water against the boards') : null);
}

const inked = [[30, 1], [10, 0.75], [3, 0.5], [1, 0.25]];

function frame(into, f, withBeds) {
  const a = state.assessment;
  const marks = [];
  f.depth_mm.forEach((d, i) => {
    if (d === null) return;
    const ink = inked.find(([least]) => d >= least);
    if (!ink) return;
    const side = f.square_m * ink[1], x = f.origin[0] + (i % f.cols + 0.5) * f.square_m, y = f.origin[1] + (Math.floor(i / f.cols) + 0.5) * f.square_m;
    marks.push(area([[x - side / 2, y - side / 2], [x + side / 2, y - side / 2], [x + side / 2, y + side / 2], [x - side / 2, y + side / 2]], 'depth'));
  });
  const boundary = a ? a.shapes.frame.boundary : state.plot.boundary;
  into.around(boundary);
  into.draw(area(boundary, 'ground'), marks, withBeds && a ? a.beds.map((b) => area(b.corners, 'bed outline')) : null);
}

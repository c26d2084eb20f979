// Build: what to buy, how to cut it, how to set it out, and what to be careful of.
import { h, put, add, field, button, fold, folds, section, say } from './dom.js';
import { progress } from './look.js';
import { state, decide, told, readPlot } from './state.js';
import { get, post } from './api.js';

let parts, done = {};

export function show(main) {
  parts = { state: h('div', {}), all: h('div', {}) };
  add(main, h('h1', {}, 'Build'), parts.state, parts.all);
  told(async () => { done = await get('/api/done'); refresh(); });
  refresh();
  if (!state.assessment && !state.problem) decide();
}

export function refresh(what) {
  if (what === 'units') { decide(); return; }
  if (what === 'waiting' || what === 'survey') return;
  put(parts.state, progress());
  put(parts.all);
  const a = state.assessment;
  if (!a) return;
  add(parts.all, 
    h('p', { class: 'row print' }, h('a', { class: 'button', href: '/report?units=' + state.units, target: '_blank' }, 'Report to print'), h('a', { class: 'button', href: '/plan.svg?units=' + state.units, target: '_blank' }, 'Plan to print')),
    h('section', {}, h('h2', {}, 'What to do'), a.decision.map((t) => h('p', {}, t))),
    cautions(a),
    folds(a.sections, ['buying', 'cuts', 'carrying'], ['buying']),
    steps(a),
    folds(a.sections, ['order', 'covers', 'assumed']));
}

/** cautions to be read, each with room for who has read it. */
function cautions(a) {
  return h('section', {}, h('h2', {}, 'Be careful'), a.cautions.map((c) => {
    const by = field('Read by', { autocomplete: 'name' });
    const mark = { STOP: 'stop', WARNING: 'warning', NOTE: '' }[c.mark];
    return h('div', { class: 'caution ' + mark }, h('p', {}, h('strong', {}, c.mark + ' '), c.text), h('p', { class: 'hint' }, c.tail),
      c.acknowledged_by ? h('p', {}, `Read by ${c.acknowledged_by}. That takes nothing of it away.`) : h('div', { class: 'figures' }, by, button('I have read this', () => acknowledge(c, by))));
  }));
}

async function acknowledge(c, by) {
  if (!by.input.value.trim()) { by.fault('say who'); by.input.focus(); return; }
  await told(async () => {
    const now = new Date();
    const date = [now.getFullYear(), String(now.getMonth() + 1).padStart(2, '0'), String(now.getDate()).padStart(2, '0')].join('-');
    await post('/api/acknowledge', { revision: state.plot.revision, caution: c.id, by: by.input.value, date });
    await readPlot();
    decide();
    say('Written down.');
  });
}

/** steps are the setting-out sheet, its tasks to be ticked off. */
function steps(a) {
  const tasks = a.steps.flatMap((part) => part.steps || []);
  if (!a.steps.length) return null;
  const left = tasks.filter((t) => !done[t.id]).length;
  return fold('Setting out', false, tasks.length ? h('p', { role: 'status' }, left ? `${left} of ${tasks.length} steps to do.` : 'All steps are done.') : null,
    a.steps.map((part) => h('div', {}, section(part), part.steps ? h('ol', { class: 'steps' }, part.steps.map((t) => h('li', {}, h('label', { class: 'tick' },
      h('input', { type: 'checkbox', checked: Boolean(done[t.id]), onchange: (e) => told(async () => { done = await post('/api/done', { step: t.id, done: e.target.checked }); refresh(); }) }), h('span', {}, t.text))))) : null)));
}

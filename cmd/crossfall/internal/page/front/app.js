// Begins the page: which screen is shown, what waits, and what is told by the
// laptop when the plot's files change.
import { h, notice, say } from './dom.js';
import { state, readPlot, chooseUnits, onChange, lastPlot, changed, readSurvey, decide } from './state.js';
import { listen, Away, Problem } from './api.js';
import * as queue from './queue.js';
import * as before from './before.js';
import * as walk from './walk.js';
import * as look from './look.js';
import * as settle from './settle.js';
import * as build from './build.js';

const screens = { before, walk, look, settle, build };
let current = null, leave = null;

function go() {
  const name = location.hash.slice(1);
  const usual = state.plot && state.plot.is_plot && state.plot.readable ? 'look' : 'before';
  open(screens[name] ? name : usual);
}

function open(name) {
  if (leave) leave();
  if (state.plot && !state.plot.is_plot) name = 'before';
  const main = document.getElementById('main');
  const first = current === null;
  current = name;
  main.replaceChildren();
  main.dataset.screen = name;
  leave = screens[name].show(main) || null;
  for (const a of document.querySelectorAll('nav a')) {
    if (a.getAttribute('href') === '#' + name) a.setAttribute('aria-current', 'page');
    else a.removeAttribute('aria-current');
  }
  if (!first) main.focus();
  window.scrollTo(0, 0);
}

onChange((what) => {
  tellWaiting();
  if (what === 'plot') {
    document.getElementById('plot-name').textContent = state.plot.name || state.plot.folder;
    document.title = `${state.plot.name || state.plot.folder} – Crossfall`;
  }
  for (const u of ['m', 'ft']) document.getElementById('units-' + u).setAttribute('aria-pressed', String(state.units === u));
  if (current && (what !== 'plot' || state.plot.is_plot)) screens[current].refresh(what);
});

for (const u of ['m', 'ft']) document.getElementById('units-' + u).addEventListener('click', () => chooseUnits(u));
window.addEventListener('hashchange', go);

/** tellWaiting counts what is not on the laptop yet. */
function tellWaiting() {
  const waiting = state.plot ? queue.pending(state.plot.folder).length : 0;
  document.getElementById('waiting').textContent = waiting ? `${waiting} not yet saved to the laptop` : '';
}
queue.watch(tellWaiting);

/** retry sends what waits whenever there is reason to hope. */
async function retry() {
  if (!state.plot || !queue.pending(state.plot.folder).length) return;
  if (current === 'walk') await walk.deliver();
  else await queue.send(state.plot.folder);
  tellWaiting();
}
window.addEventListener('online', retry);
document.addEventListener('visibilitychange', () => { if (!document.hidden) retry(); });
setInterval(retry, 5000);

/** follow hears of changes of the files, made here or elsewhere. */
function follow() {
  listen('/api/changes', {
    revision: async ({ revision }) => {
      if (state.plot && revision !== state.plot.revision) {
        state.assessment = state.survey = state.problem = null;
        await readPlot();
        if (current === 'walk') readSurvey();
        else if (current !== 'before') decide();
        say('The plot’s files have changed.');
      }
      retry();
    },
  }, (source) => { if (source.readyState === EventSource.CLOSED) setTimeout(follow, 5000); });
}

async function begin() {
  try {
    await readPlot();
    notice('');
  } catch (e) {
    if (e instanceof Problem && e.status === 401) { location.assign('/code'); return; }
    state.plot ??= lastPlot();
    if (!state.plot) {
      document.getElementById('main').replaceChildren(h('p', {}, 'The laptop cannot be reached. Come nearer, or open the page there again.'));
      setTimeout(begin, 3000);
      return;
    }
    if (e instanceof Away) {
      notice('The laptop cannot be reached. What you key in stays on this device and is sent when it can be.');
      if (!current) { location.hash = '#walk'; changed('plot'); go(); }
      setTimeout(begin, 5000);
      return;
    }
    notice(e.message);
  }
  go();
  follow();
  retry();
}

if (window.isSecureContext && 'serviceWorker' in navigator) navigator.serviceWorker.register('/worker.js').catch(() => {});
begin();

// What the page knows: the plot as the files say, what the readings say, and the
// decision. Screens ask for what they need and are drawn again when it changes.
import { get, listen, Problem } from './api.js';
import { notice, say } from './dom.js';

export const state = { plot: null, survey: null, assessment: null, problem: null, units: 'm', stage: '' };
const listeners = new Set();

export function onChange(take) { listeners.add(take); }
export function changed(what) { for (const take of listeners) take(what); }

const unitsKey = 'crossfall.units';

/** chooseUnits shows everything in metres or feet. */
export async function chooseUnits(units) {
  state.units = units;
  localStorage.setItem(unitsKey, units);
  state.survey = state.assessment = null;
  changed('units');
}

/** readPlot reads the plot anew. */
export async function readPlot() {
  const plot = await get('/api/plot');
  const first = !state.plot;
  state.plot = plot;
  if (first) state.units = localStorage.getItem(unitsKey) || plot.units || 'm';
  localStorage.setItem('crossfall.plot', JSON.stringify(plot)); // to begin with where the laptop is out of reach
  changed('plot');
}

/** lastPlot is the plot as it was last seen. */
export function lastPlot() {
  try {
    return JSON.parse(localStorage.getItem('crossfall.plot'));
  } catch {
    return null;
  }
}

/** readSurvey asks what the readings say so far. */
export async function readSurvey() {
  state.survey = await get('/api/survey?units=' + state.units);
  changed('survey');
}

let closeStream = null;

/** decide has the plot assessed, with its stages told on the way. */
export function decide() {
  if (closeStream) closeStream();
  state.problem = null;
  state.stage = 'ground';
  changed('stage');
  return new Promise((done) => {
    const end = () => { closeStream(); closeStream = null; state.stage = ''; done(); };
    closeStream = listen('/api/assessment?units=' + state.units, {
      stage: (v) => { state.stage = v.stage; changed('stage'); },
      assessment: (v) => { state.assessment = v; end(); changed('assessment'); say('The decision is ready.'); },
      problem: (v) => { state.problem = v; state.assessment = null; end(); changed('assessment'); },
    }, end);
  });
}

/** stopDeciding gives it up. */
export function stopDeciding() {
  if (closeStream) closeStream();
  closeStream = null;
  state.stage = '';
  changed('stage');
}

/** told runs what asks the server, and tells what went wrong. */
export async function told(work) {
  try {
    return await work();
  } catch (e) {
    if (e instanceof Problem && e.code === 'changed') {
      notice(e.message);
      await readPlot();
    } else if (e instanceof Problem && e.status === 401) {
      location.assign('/code');
    } else {
      notice(e.faults && e.faults.length ? e.faults.map(faultSaid).join(' ') : e.message);
    }
    return undefined;
  }
}

let last = Promise.resolve();

/** inTurn has changes of the files made one after another, each from what the one
 * before left. */
export function inTurn(work) {
  const now = last.then(work, work);
  last = now.catch(() => {});
  return now;
}

/** faultSaid is a fault of the files in one sentence. */
export function faultSaid(f) {
  const at = f.at || {};
  const where = [at.file, at.line ? 'line ' + at.line : '', at.column ? 'column ' + at.column : ''].filter(Boolean).join(', ');
  return `${where ? where + ': ' : ''}${f.read ? '"' + f.read + '": ' : ''}${f.message}${f.want ? '; ' + f.want : ''}.`;
}

// Readings that are keyed in and not yet on the laptop. Each is put into the
// browser's storage first, then sent; it leaves the storage when the laptop has
// said that it is in the file, and not before. A reading that is sent twice is
// booked once, by its id.
import { post, Problem, newID } from './api.js';

const prefix = 'crossfall.reading.';
const listeners = new Set();
let sending = null;

/** pending are the readings not yet booked, in the order in which they were keyed. */
export function pending(folder) {
  const out = [];
  for (let i = 0; i < localStorage.length; i++) {
    const key = localStorage.key(i);
    if (!key.startsWith(prefix)) continue;
    try {
      const item = JSON.parse(localStorage.getItem(key));
      if (item && item.body && item.body.id && item.folder === folder) out.push(item);
    } catch { /* not written by this page */ }
  }
  return out.sort((a, b) => a.order - b.order || (a.body.id < b.body.id ? -1 : 1));
}

function keep(item) { localStorage.setItem(prefix + item.body.id, JSON.stringify(item)); }

/** forget takes a reading out: it is booked, or was not meant. */
export function forget(id) { localStorage.removeItem(prefix + id); tell(); }

/** change replaces the body of a reading that waits, and clears what was wrong. */
export function change(item, body) { keep({ ...item, body: { ...item.body, ...body }, doubt: null, wrong: null }); tell(); }

/** add keeps a reading; kind is the last part of its address. */
export function add(folder, kind, body) {
  const id = newID();
  keep({ folder, kind, order: Date.now(), body: { id, ...body }, doubt: null, wrong: null });
  tell();
  return id;
}

export function watch(take) { listeners.add(take); }
function tell() { for (const take of listeners) take(); }

/** send sends what waits, oldest first. The answer says whether the laptop could be
 * reached, and which readings were booked. */
export function send(folder) {
  sending ??= sendAll(folder).finally(() => { sending = null; });
  return sending;
}

async function sendAll(folder) {
  const booked = [];
  for (const item of pending(folder)) {
    if (item.doubt || item.wrong) continue; // waits for a word from the person
    try {
      const answer = await post('/api/' + item.kind, item.body);
      if (answer.doubt) {
        keep({ ...item, doubt: answer.doubt });
      } else {
        booked.push({ ...item, name: answer.name });
        localStorage.removeItem(prefix + item.body.id);
      }
    } catch (e) {
      if (e instanceof Problem && e.status === 422) {
        keep({ ...item, wrong: { field: e.field, message: e.message } });
      } else {
        tell();
        return { reached: e instanceof Problem, problem: e, booked };
      }
    }
    tell();
  }
  return { reached: true, booked };
}

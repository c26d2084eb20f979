// Talks to the server that the page came from, and to nothing else.

/** Problem is what the server answers to what it could not do. */
export class Problem extends Error {
  constructor(status, told) {
    super(told.message || 'it could not be done');
    this.status = status;
    this.code = told.code;
    this.field = told.field || '';
    this.faults = told.faults || [];
  }
}

/** Away is thrown when the server cannot be reached. */
export class Away extends Error {}

async function ask(path, options) {
  let answer;
  try {
    answer = await fetch(path, { credentials: 'same-origin', cache: 'no-store', ...options });
  } catch (e) {
    if (e.name === 'AbortError') throw e;
    throw new Away('the laptop cannot be reached');
  }
  const text = await answer.text();
  let value = {};
  try {
    value = text ? JSON.parse(text) : {};
  } catch {
    throw new Away('what answered is not this page');
  }
  if (!answer.ok) throw new Problem(answer.status, value);
  return value;
}

export const get = (path, signal) => ask(path, { signal });

export const post = (path, body, signal) => ask(path, {
  method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body), signal,
});

/** listen opens a stream of events; the answer closes it. */
export function listen(path, on, lost) {
  const source = new EventSource(path);
  for (const [name, take] of Object.entries(on)) source.addEventListener(name, (e) => take(JSON.parse(e.data)));
  source.onerror = () => lost && lost(source);
  return () => source.close();
}

/** id for a reading: of its kind in the world, made where there may be no secure context. */
export function newID() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');
}

// A drawing of the plot in metres, east to the right and north up, that can be
// moved, enlarged and tapped. Everything it does by finger or mouse can be done by
// its buttons and by keys.
import { h, s, button } from './dom.js';
import { state } from './state.js';

/** Drawing is one view of the plot. */
export class Drawing {
  constructor(label, { ontap, role = 'img' } = {}) {
    this.ontap = ontap;
    this.layers = s('g', {});
    this.svg = s('svg', { class: 'plan', role, 'aria-label': label, tabindex: '0' }, this.layers);
    this.scale = h('p', { class: 'scale' });
    this.el = h('figure', { class: 'drawing' }, this.svg,
      h('div', { class: 'tools', role: 'group', 'aria-label': 'Size of the drawing' },
        button('+', () => this.enlarge(1 / 1.4), { 'aria-label': 'Larger' }),
        button('−', () => this.enlarge(1.4), { 'aria-label': 'Smaller' }),
        button('All', () => this.fit(), { 'aria-label': 'Show all of the plot' })),
      this.scale);
    this.bounds = [0, 0, 10, 10];
    this.view = null;
    this.pointers = new Map();
    this.svg.addEventListener('pointerdown', (e) => this.down(e));
    this.svg.addEventListener('pointermove', (e) => this.move(e));
    for (const end of ['pointerup', 'pointercancel']) this.svg.addEventListener(end, (e) => this.up(e));
    this.svg.addEventListener('wheel', (e) => { if (e.ctrlKey || document.activeElement === this.svg) { e.preventDefault(); this.enlarge(e.deltaY > 0 ? 1.15 : 1 / 1.15); } }, { passive: false });
    this.svg.addEventListener('keydown', (e) => this.key(e));
    new ResizeObserver(() => this.place()).observe(this.svg);
  }

  /** around sets what "all of the plot" is. */
  around(points) {
    if (!points.length) return;
    const xs = points.map((p) => p[0]), ys = points.map((p) => p[1]);
    const pad = Math.max(1, 0.06 * Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)));
    const bounds = [Math.min(...xs) - pad, Math.min(...ys) - pad, Math.max(...xs) + pad, Math.max(...ys) + pad];
    const other = String(bounds) !== String(this.bounds);
    this.bounds = bounds;
    if (other || !this.view) this.fit();
  }

  fit() {
    const [x0, y0, x1, y1] = this.bounds;
    this.view = { x: (x0 + x1) / 2, y: (y0 + y1) / 2, w: x1 - x0, h: y1 - y0 };
    this.place();
  }

  enlarge(by) {
    this.view.w *= by;
    this.view.h *= by;
    this.place();
  }

  /** place puts the view on the screen, with the same metres both ways. */
  place() {
    const box = this.svg.getBoundingClientRect();
    if (!this.view || !box.width || !box.height) return;
    this.unit = Math.max(this.view.w / box.width, this.view.h / box.height); // metres a pixel
    const w = this.unit * box.width, hgt = this.unit * box.height;
    this.svg.setAttribute('viewBox', `${this.view.x - w / 2} ${-this.view.y - hgt / 2} ${w} ${hgt}`);
    this.svg.style.setProperty('--px', `${this.unit}px`);
    const per = state.units === 'ft' ? 0.3048 : 1;
    const step = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500].find((n) => n * per / this.unit >= 60) || 1000;
    this.scale.textContent = `${step} ${per === 1 ? 'm' : 'ft'}`;
    this.scale.style.width = `${step * per / this.unit}px`;
  }

  /** at is the place under a pointer. */
  at(e) {
    const box = this.svg.getBoundingClientRect();
    return [this.view.x + (e.clientX - box.left - box.width / 2) * this.unit, this.view.y - (e.clientY - box.top - box.height / 2) * this.unit];
  }

  down(e) {
    if (e.target.closest('[data-drag]')) return;
    this.pointers.set(e.pointerId, { x: e.clientX, y: e.clientY, x0: e.clientX, y0: e.clientY });
    this.far = false;
  }

  move(e) {
    const p = this.pointers.get(e.pointerId);
    if (!p) return;
    const apart = () => {
      const [a, b] = [...this.pointers.values()];
      return Math.hypot(a.x - b.x, a.y - b.y);
    };
    const before = this.pointers.size === 2 ? apart() : 0;
    const dx = e.clientX - p.x, dy = e.clientY - p.y;
    p.x = e.clientX;
    p.y = e.clientY;
    if (Math.hypot(p.x - p.x0, p.y - p.y0) > 8) {
      if (!this.far) this.svg.setPointerCapture(e.pointerId);
      this.far = true;
    }
    if (!this.far) return;
    if (this.pointers.size === 2 && before > 0) this.enlarge(before / Math.max(1, apart()));
    else {
      this.view.x -= dx * this.unit;
      this.view.y += dy * this.unit;
      this.place();
    }
  }

  up(e) {
    const was = this.pointers.delete(e.pointerId);
    if (was && !this.far && e.type === 'pointerup' && this.ontap) this.ontap(this.at(e));
  }

  key(e) {
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
    if (e.target !== this.svg) return;
    if (by) {
      this.view.x += by[0] * this.view.w / 10;
      this.view.y += by[1] * this.view.h / 10;
      this.place();
      e.preventDefault();
    } else if (e.key === '+' || e.key === '=') this.enlarge(1 / 1.4);
    else if (e.key === '-') this.enlarge(1.4);
  }

  /** draw replaces everything that is drawn. */
  draw(...marks) { this.layers.replaceChildren(...marks.flat(Infinity).filter(Boolean)); }
}

const line = (points, close) => points.map((p, i) => `${i ? 'L' : 'M'}${p[0].toFixed(3)} ${(-p[1]).toFixed(3)}`).join('') + (close ? 'Z' : '');

export const area = (points, cls) => (points && points.length > 2 ? s('path', { d: line(points, true), class: cls }) : null);
export const way = (points, cls) => (points && points.length > 1 ? s('path', { d: line(points), class: 'way ' + cls }) : null);
export const label = (at, text, cls = '') => s('text', { x: at[0], y: -at[1], class: cls }, text);

/** spot is a mark of constant size on the screen. */
export function spot(at, cls, shape = 'dot') {
  const g = s('g', { transform: `translate(${at[0]} ${-at[1]})`, class: 'spot ' + cls });
  const paths = {
    dot: 'M-3 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0Z',
    cross: 'M-5 -5L5 5M-5 5L5 -5',
    ring: 'M-9 0a9 9 0 1 0 18 0a9 9 0 1 0 -18 0ZM-14 0H-4M4 0H14M0 -14V-4M0 4V14',
    square: 'M-4 -4H4V4H-4Z',
    triangle: 'M0 -6L6 5H-6Z',
    gate: 'M-6 -5V5M6 -5V5M-6 0H6',
    tree: 'M-7 0a7 7 0 1 0 14 0a7 7 0 1 0 -14 0ZM-2 0H2M0 -2V2',
  };
  g.append(s('path', { d: paths[shape] || paths.dot }));
  return g;
}

/** arrow shows which way water runs along a line. */
export function arrow(points, cls) {
  if (!points || points.length < 2) return null;
  let i = points.length - 1;
  const [x1, y1] = points[i];
  while (i > 0 && Math.hypot(x1 - points[i - 1][0], y1 - points[i - 1][1]) < 0.2) i--;
  const [x0, y0] = points[Math.max(0, i - 1)];
  const turn = Math.atan2(-(y1 - y0), x1 - x0) * 180 / Math.PI;
  const g = s('g', { transform: `translate(${x1} ${-y1})`, class: 'spot ' + cls });
  g.append(s('path', { d: 'M-9 -5L0 0L-9 5', transform: `rotate(${turn})` }));
  return g;
}

const shapes = { tree: 'tree', gate: 'gate', mark: 'triangle', obstacle: 'square', heap: 'square' };

/** fixtures draws what stands or lies on the plot, each with its name. */
export function fixtures(list) {
  return list.filter((f) => f.kind !== 'bed').map((f) => {
    const cls = `${f.kind} ${f.carries || ''}`;
    if (f.points.length === 1) return [spot(f.points[0], cls, shapes[f.kind]), label(f.points[0], f.name, 'beside')];
    const mid = f.points[Math.floor(f.points.length / 2)];
    return [f.shape === 'area' || f.area ? area(f.points, 'thing ' + cls) : way(f.points, cls), label(mid, f.name, 'beside')];
  });
}

/** north marks the drawing's corner; turn is the bearing of its upward side. */
export function north(turn, said) {
  return h('p', { class: 'north' }, s('svg', { viewBox: '-10 -14 20 28', 'aria-hidden': 'true' },
    s('path', { d: 'M0 -12L5 10L0 6L-5 10Z', transform: `rotate(${-turn})` })), `North (${said})`);
}

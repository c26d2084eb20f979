// The ground as a solid that can be turned: drawn from far to near on a canvas, by
// parallel projection, with the light from the north west. Heights are true or
// exaggerated, and the drawing says which.
import { h, button } from './dom.js';
import { state } from './state.js';

const said = (m) => (state.units === 'ft' ? `${(m / 0.3048).toFixed(1)} ft` : `${m.toFixed(2)} m`);

export class Ground3D {
  constructor() {
    this.turn = 30;
    this.tilt = 35;
    this.times = 1;
    this.canvas = h('canvas', { width: '720', height: '480', tabindex: '0', role: 'img', 'aria-label': 'The ground as a solid' });
    this.said = h('p', { class: 'hint', 'aria-live': 'polite' });
    const slide = (name, min, max, get, set) => {
      const input = h('input', { type: 'range', min, max, value: get(), 'aria-label': name });
      input.addEventListener('input', () => { set(Number(input.value)); this.draw(); });
      return h('label', {}, name, input);
    };
    const heights = h('fieldset', { class: 'choice' }, h('legend', {}, 'Heights'), [1, 2, 4].map((n) => h('label', {},
      h('input', { type: 'radio', name: 'times', value: n, checked: n === 1, onchange: () => { this.times = n; this.draw(); } }), n === 1 ? 'true' : `${n} times`)));
    this.turning = slide('Turn', '0', '359', () => this.turn, (v) => { this.turn = v; });
    this.tilting = slide('Tilt', '10', '90', () => this.tilt, (v) => { this.tilt = v; });
    this.el = h('div', { class: 'solid' }, this.canvas, h('div', { class: 'row' }, button('⟲', () => this.by(-15), { 'aria-label': 'Turn to the left' }), button('⟳', () => this.by(15), { 'aria-label': 'Turn to the right' }), this.turning, this.tilting), heights, this.said);
    this.canvas.addEventListener('keydown', (e) => {
      const by = { ArrowLeft: -10, ArrowRight: 10 }[e.key];
      if (by) { this.by(by); e.preventDefault(); }
    });
    this.canvas.addEventListener('pointerdown', (e) => { this.from = [e.clientX, e.clientY, this.turn, this.tilt]; this.canvas.setPointerCapture(e.pointerId); });
    this.canvas.addEventListener('pointermove', (e) => {
      if (!this.from) return;
      this.turn = (this.from[2] + (e.clientX - this.from[0]) / 2 + 720) % 360;
      this.tilt = Math.min(90, Math.max(10, this.from[3] + (e.clientY - this.from[1]) / 3));
      this.draw();
    });
    for (const end of ['pointerup', 'pointercancel']) this.canvas.addEventListener(end, () => { this.from = null; });
  }

  by(degrees) {
    this.turn = (this.turn + degrees + 360) % 360;
    this.turning.querySelector('input').value = String(this.turn);
    this.draw();
  }

  show(ground, assessment) {
    this.ground = ground;
    this.beds = assessment ? assessment.beds : [];
    this.draw();
  }

  draw() {
    const g = this.ground;
    if (!g) return;
    const known = g.height_m.filter((z) => z !== null);
    const low = Math.min(...known), high = Math.max(...known);
    const t = this.turn * Math.PI / 180, e = this.tilt * Math.PI / 180;
    const mx = g.origin[0] + (g.cols - 1) * g.cell_m / 2, my = g.origin[1] + (g.rows - 1) * g.cell_m / 2;
    const size = Math.hypot(g.cols, g.rows) * g.cell_m;
    const k = Math.min(this.canvas.width / size, this.canvas.height / (size * 0.75)) * 0.98;
    const project = (x, y, z) => {
      const u = (x - mx) * Math.cos(t) - (y - my) * Math.sin(t), v = (x - mx) * Math.sin(t) + (y - my) * Math.cos(t);
      return [this.canvas.width / 2 + k * u, this.canvas.height / 2 - k * (v * Math.sin(e) + (z - (low + high) / 2) * this.times * Math.cos(e)), v];
    };
    const at = (c, r) => g.height_m[r * g.cols + c];
    const faces = [];
    for (let r = 0; r + 1 < g.rows; r++) {
      for (let c = 0; c + 1 < g.cols; c++) {
        const z = [at(c, r), at(c + 1, r), at(c + 1, r + 1), at(c, r + 1)];
        if (z.includes(null) || z.includes(undefined)) continue;
        const p = [[c, r], [c + 1, r], [c + 1, r + 1], [c, r + 1]].map(([i, j], n) => project(g.origin[0] + i * g.cell_m, g.origin[1] + j * g.cell_m, z[n]));
        const sx = (z[1] + z[2] - z[0] - z[3]) / 2 / g.cell_m * this.times, sy = (z[3] + z[2] - z[0] - z[1]) / 2 / g.cell_m * this.times;
        const shade = (0.5 * sx - 0.5 * sy + 0.707) / Math.sqrt(1 + sx * sx + sy * sy);
        faces.push({ p, far: p[0][2] + p[2][2], shade: Math.min(1, Math.max(0.15, shade)) });
      }
    }
    faces.sort((a, b) => b.far - a.far);
    const draw = this.canvas.getContext('2d');
    draw.fillStyle = '#fff';
    draw.fillRect(0, 0, this.canvas.width, this.canvas.height);
    for (const f of faces) {
      const grey = Math.round(70 + 185 * f.shade);
      draw.fillStyle = draw.strokeStyle = `rgb(${grey},${grey},${Math.round(grey * 0.97)})`;
      draw.beginPath();
      f.p.forEach(([x, y], i) => (i ? draw.lineTo(x, y) : draw.moveTo(x, y)));
      draw.closePath();
      draw.fill();
      draw.stroke();
    }
    this.drawBeds(draw, project);
    this.drawNorth(draw, project, mx, my, size);
    this.said.textContent = `Looked at towards ${Math.round((360 - this.turn) % 360)}°, heights ${this.times === 1 ? 'true' : this.times + ' times the lengths'}. The ground lies between ${said(low)} and ${said(high)}.`;
  }

  drawBeds(draw, project) {
    draw.strokeStyle = draw.fillStyle = '#0a4d3c';
    draw.lineWidth = 2;
    draw.font = '13px sans-serif';
    for (const b of this.beds) {
      draw.beginPath();
      b.corners.forEach(([x, y], i) => { const p = project(x, y, this.heightAt(x, y)); if (i) draw.lineTo(p[0], p[1]); else draw.moveTo(p[0], p[1]); });
      draw.closePath();
      draw.stroke();
      const m = project(b.centre[0], b.centre[1], this.heightAt(b.centre[0], b.centre[1]));
      draw.fillText(b.name, m[0] - 14, m[1] + 4);
    }
    draw.lineWidth = 1;
  }

  drawNorth(draw, project, mx, my, size) {
    const a = project(mx - size * 0.4, my - size * 0.1, this.heightAt(mx, my)), b = project(mx - size * 0.4, my + size * 0.1, this.heightAt(mx, my));
    draw.strokeStyle = draw.fillStyle = '#111';
    draw.beginPath();
    draw.moveTo(a[0], a[1]);
    draw.lineTo(b[0], b[1]);
    draw.stroke();
    draw.fillText('+y', b[0] + 4, b[1]);
  }

  /** heightAt is the ground's height near a place. */
  heightAt(x, y) {
    const g = this.ground;
    const c = Math.min(g.cols - 1, Math.max(0, Math.round((x - g.origin[0]) / g.cell_m))), r = Math.min(g.rows - 1, Math.max(0, Math.round((y - g.origin[1]) / g.cell_m)));
    return g.height_m[r * g.cols + c] ?? g.height_m.find((z) => z !== null) ?? 0;
  }
}

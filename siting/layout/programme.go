package layout

import (
	"math"
	"slices"
)

// demands are what rows must keep to.
type demands struct {
	rowMin   int     // least number of beds in a row
	columns  bool    // the beds of all rows stand in columns
	pairs    bool    // rows may stand in pairs, nearer than a path
	pairPath float64 // m, inside a pair
}

// programme is the best of all layouts in rows of one direction, for every
// number of beds up to a greatest: exact, by dynamic programming over the rows
// from one side to the other. A row of u beds is itself the best choice of u
// intervals, by dynamic programming along it.
type programme struct {
	f      *field
	d      direction
	weight []float64 // by site
	usable []bool    // by site; nil: all
	want   demands
	most   int // beds

	values [][]float64 // values[r][u] of a row with u beds; shorter where no more fit
	before []int       // before[r]: rows that lie a path clear of the r-th
	mate   []int       // mate[r]: the row that makes a pair with the r-th, or -1
	sum    [][]float64 // sum[r][k] of k beds in the first r rows
	chosen [][]pick    // chosen[r][k]: what the r-th row does for that
	line   intervals
}

// pick is how many beds stand in a row and in its mate.
type pick struct{ here, mate int }

// solve fills in the tables for one direction.
func (p *programme) solve() {
	rows := p.f.rows[p.d.first:p.d.end]
	p.line.pitch = p.f.length + p.f.path
	p.values = slices.Grow(p.values[:0], len(rows))
	p.before, p.mate = p.before[:0], p.mate[:0]
	clear, near := p.f.width+p.f.path, p.f.width+p.want.pairPath
	below, beside := 0, 0
	for i, r := range rows {
		for rows[below].across <= r.across-clear+hair {
			below++
		}
		for rows[beside].across <= r.across-near+hair {
			beside++
		}
		mate := -1
		if p.want.pairs && beside > below {
			mate = beside - 1
		}
		p.before, p.mate = append(p.before, below), append(p.mate, mate)
		p.values = append(p.values, p.rowValues(i))
	}
	p.overRows(len(rows))
}

// rowValues is the value of the i-th row with 0, 1, 2... beds.
func (p *programme) rowValues(i int) []float64 {
	r := p.f.rows[p.d.first+i]
	p.line.fill(p.f.sites[r.first:r.end], r.first, p.weight, p.usable, p.most)
	out := make([]float64, 1, 8)
	for u := 1; u < len(p.line.best); u++ {
		v := p.line.value(u)
		if u < p.want.rowMin {
			v = math.Inf(-1)
		}
		out = append(out, v-p.f.rowCost)
	}
	return out
}

func (p *programme) overRows(n int) {
	width := p.most + 1
	cells := make([]float64, (n+1)*width)
	picks := make([]pick, n*width)
	p.sum, p.chosen = make([][]float64, n+1), make([][]pick, n)
	p.sum[0] = cells[:width]
	for k := 1; k < width; k++ {
		p.sum[0][k] = math.Inf(-1)
	}
	for r := range n {
		p.sum[r+1], p.chosen[r] = cells[(r+1)*width:(r+2)*width], picks[r*width:(r+1)*width]
		copy(p.sum[r+1], p.sum[r])
		p.single(r)
		if p.mate[r] >= 0 {
			p.pair(r)
		}
	}
}

// single lets the r-th row stand a path clear of those before it.
func (p *programme) single(r int) {
	from, to := p.sum[p.before[r]], p.sum[r+1]
	for u := 1; u < len(p.values[r]); u++ {
		v := p.values[r][u]
		for k := u; k < len(to); k++ {
			if s := from[k-u] + v; s > to[k] {
				to[k], p.chosen[r][k] = s, pick{here: u}
			}
		}
	}
}

// pair lets the r-th row and its mate stand together.
func (p *programme) pair(r int) {
	m := p.mate[r]
	from, to := p.sum[p.before[m]], p.sum[r+1]
	for u := 1; u < len(p.values[r]); u++ {
		for w := 1; w < len(p.values[m]); w++ {
			v := p.values[r][u] + p.values[m][w]
			for k := u + w; k < len(to); k++ {
				if s := from[k-u-w] + v; s > to[k] {
					to[k], p.chosen[r][k] = s, pick{u, w}
				}
			}
		}
	}
}

// trace is the sites of the best k beds.
func (p *programme) trace(k int) []int {
	var out []int
	take := func(i, u int) {
		r := p.f.rows[p.d.first+i]
		p.line.fill(p.f.sites[r.first:r.end], r.first, p.weight, p.usable, u)
		out = append(out, p.line.trace(u)...)
	}
	for r := len(p.chosen); r > 0; {
		c := p.chosen[r-1][k]
		switch {
		case c.here == 0:
			r--
		case c.mate == 0:
			take(r-1, c.here)
			k, r = k-c.here, p.before[r-1]
		default:
			m := p.mate[r-1]
			take(r-1, c.here)
			take(m, c.mate)
			k, r = k-c.here-c.mate, p.before[m]
		}
	}
	slices.Sort(out)
	return out
}

// intervals is the best choice of u places of one row that keep a pitch, for
// every u: the weighted choice of intervals, by dynamic programming.
type intervals struct {
	pitch float64 // m from one middle to the next
	sites []int
	prev  []int       // prev[i]: how many of the sites end before the i-th begins
	best  [][]float64 // best[u][i]: u beds among the first i sites
	store [][]float64
}

// fill works out a row for up to most beds. first is the index of the row's
// first site; weight and usable are by site.
func (t *intervals) fill(row []site, first int, weight []float64, usable []bool, most int) {
	t.sites, t.prev = t.sites[:0], t.prev[:0]
	ended := 0
	for i := range row {
		if usable != nil && !usable[first+i] {
			continue
		}
		for ended < len(t.sites) && row[t.sites[ended]-first].along <= row[i].along-t.pitch+hair {
			ended++
		}
		t.sites, t.prev = append(t.sites, first+i), append(t.prev, ended)
	}
	t.best = append(t.best[:0], t.array(0, len(t.sites)+1))
	clear(t.best[0])
	for u := 1; u <= most; u++ {
		less, more := t.best[u-1], t.array(u, len(t.sites)+1)
		more[0] = math.Inf(-1)
		for i, s := range t.sites {
			more[i+1] = math.Max(more[i], less[t.prev[i]]+weight[s])
		}
		if math.IsInf(more[len(t.sites)], -1) {
			return
		}
		t.best = append(t.best, more)
	}
}

// array is the u-th array of n figures, used over and over.
func (t *intervals) array(u, n int) []float64 {
	for len(t.store) <= u {
		t.store = append(t.store, nil)
	}
	if cap(t.store[u]) < n {
		t.store[u] = make([]float64, n+n/2)
	}
	return t.store[u][:n]
}

func (t *intervals) value(u int) float64 { return t.best[u][len(t.sites)] }

// trace is the sites of the best u.
func (t *intervals) trace(u int) []int {
	out := make([]int, 0, u)
	for i := len(t.sites); u > 0; {
		if t.best[u][i] == t.best[u][i-1] {
			i--
			continue
		}
		out = append(out, t.sites[i-1])
		i, u = t.prev[i-1], u-1
	}
	return out
}

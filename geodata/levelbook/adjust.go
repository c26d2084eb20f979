package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// adjustment fixes a run of relative levels on its known points.
type adjustment struct {
	book     Book
	keys     []string // of the stations, by row
	run      run
	list     []sight
	opt      Options
	faults   *geodata.Faults
	sections []Section
	raw      []float64 // reduced levels before spreading, for each sight
	corr     []float64
	variance []float64 // of the levelling, without the ground
	failed   []bool
	known    []bool
}

// adjust works from nodes, the sights on the line of the run whose level is
// known, or from the first of the asides when there are none.
func (a *adjustment) adjust(nodes, asides []node) {
	n := len(a.list)
	a.raw, a.corr, a.variance = make([]float64, n), make([]float64, n), make([]float64, n)
	a.failed, a.known = make([]bool, n), make([]bool, n)
	for _, k := range nodes {
		a.raw[k.i] = k.level
	}
	if len(nodes) == 0 {
		a.hang(0, n, asides[0])
		a.sections = append(a.sections, a.section(0, n-1, Unchecked))
		a.known[asides[0].i] = asides[0].given
		return
	}
	if loop := a.onItself(); len(nodes) == 1 && loop {
		a.loop(nodes[0])
		a.known[nodes[0].i] = nodes[0].given
		return
	}
	first, last := nodes[0], nodes[len(nodes)-1]
	if first.i > 0 {
		a.hang(0, first.i, first)
		a.sections = append(a.sections, a.section(0, first.i, Unchecked))
	}
	for k := 1; k < len(nodes); k++ {
		a.between(nodes[k-1], nodes[k])
	}
	if last.i < n-1 || n == 1 {
		a.hang(last.i, n, last)
		a.sections = append(a.sections, a.section(last.i, n-1, Unchecked))
	}
	for _, k := range nodes {
		a.raw[k.i] = a.rawAt(k, nodes)
		a.corr[k.i] = k.level - a.raw[k.i]
		a.variance[k.i], a.failed[k.i], a.known[k.i] = k.sigma*k.sigma, false, k.given
	}
}

// rawAt is what the book gives for a node: carried from the node before it.
func (a *adjustment) rawAt(k node, nodes []node) float64 {
	before := nodes[0]
	for _, m := range nodes {
		if m.i >= k.i {
			break
		}
		before = m
	}
	return before.level + a.list[k.i].level - a.list[before.i].level
}

// onItself tells whether the run ends with a foresight on its first station.
func (a *adjustment) onItself() bool {
	last := a.list[len(a.list)-1]
	return last.fore && a.keys[last.row] == a.keys[a.list[0].row]
}

// hang carries levels from one known sight to those from lo up to hi.
func (a *adjustment) hang(lo, hi int, from node) {
	s := a.opt.SetupSigma
	for i := lo; i < hi; i++ {
		a.raw[i] = from.level + a.list[i].level - a.list[from.i].level
		a.variance[i] = from.sigma*from.sigma + s*s*float64(a.list[i].setupsTo(a.list[from.i]))
	}
}

// between closes the section from one node on the next.
func (a *adjustment) between(from, to node) {
	a.hang(from.i+1, to.i+1, from)
	s := a.section(from.i, to.i, Closed)
	s.Known, s.Computed = to.level, a.raw[to.i]
	a.close(&s, from.i, to.i)
	if s.Verdict != NotClosed {
		base := math.Max(from.sigma, to.sigma)
		a.spread(&s, from.i, to.i, base*base)
	}
	a.sections = append(a.sections, s)
}

// loop closes a run on its own first station, whose level is not known, and
// hangs it on the one node that is.
func (a *adjustment) loop(on node) {
	last := len(a.list) - 1
	a.hang(0, last+1, on)
	s := a.section(0, last, Closed)
	s.Known, s.Computed = a.raw[0], a.raw[last]
	a.close(&s, 0, last)
	if s.Verdict != NotClosed {
		a.spread(&s, 0, last, 0)
		shift := a.corr[on.i]
		for i := range a.corr {
			a.corr[i] -= shift
			a.variance[i] = on.sigma*on.sigma + a.loopVariance(a.list[i].setupsTo(a.list[on.i]), s.Setups)
		}
	}
	if s.Verdict == NotClosed {
		// The ends of the loop are one station: neither is better known.
		a.failed[0] = true
		a.variance[0] += s.Misclosure * s.Misclosure
		a.variance[last] += s.Misclosure * s.Misclosure
	}
	a.failed[on.i] = false
	a.variance[on.i] = on.sigma * on.sigma
	a.sections = append(a.sections, s)
}

// loopVariance is the variance of a level k set-ups from the datum in a spread
// loop of n: the two ways round in parallel.
func (a *adjustment) loopVariance(k, n int) float64 {
	s2 := a.opt.SetupSigma * a.opt.SetupSigma
	if k >= n { // an intersight in a loop of one set-up
		return s2 * float64(min(k, 1))
	}
	return s2 * float64(k) * float64(n-k) / float64(n)
}

// section describes the part of the run between two sights.
func (a *adjustment) section(from, to int, v Verdict) Section {
	f, t := a.list[from], a.list[to]
	s := Section{
		From: a.book.Rows[f.row].Station, To: a.book.Rows[t.row].Station,
		Setups: f.setupsTo(t), Verdict: v, At: a.book.pos(t.row, Figure{}),
	}
	s.Length = a.length(from, to)
	s.Known, s.Computed = a.raw[to], a.raw[to]
	if v == Unchecked {
		s.Spread = "nothing to spread"
	}
	return s
}

// close judges a section by its misclosure.
func (a *adjustment) close(s *Section, from, to int) {
	s.Misclosure = s.Computed - s.Known
	// One set-up at least: a section inside a page carried over has none.
	s.Allowance = a.opt.Allowance * math.Sqrt(float64(max(s.Setups, 1)))
	s.Orders = orders(s.Length, s.Misclosure)
	if math.Abs(s.Misclosure) <= s.Allowance+exact {
		return
	}
	s.Verdict = NotClosed
	s.Suspects = suspects(a.book, a.list[from:to+1], a.run, s.Misclosure, s.Allowance)
	if a.opt.DistributeAnyway {
		s.Verdict = ClosedByRequest
	} else {
		s.Spread = "not spread"
		for i := from + 1; i < to; i++ {
			a.failed[i] = true
			a.variance[i] += s.Misclosure * s.Misclosure
		}
		a.failed[to] = true
	}
	a.faults.Add(a.misclosureFault(*s))
}

func (a *adjustment) misclosureFault(s Section) geodata.Fault {
	f := geodata.Fault{
		Code: "level-book-misclosure", Severity: geodata.Warning, Pos: s.At, Read: s.To,
		Message: fmt.Sprintf("from %s to %s the book closes with %+.0f mm, and %.0f mm is allowed in %s",
			s.From, s.To, 1000*s.Misclosure, 1000*s.Allowance, counted(s.Setups, "set-up")),
		Want: "look for the mistake before using these heights",
	}
	if len(s.Suspects) > 0 {
		f.Want = s.Suspects[0].Words
	}
	return f
}

func counted(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// orders compares a misclosure with rules for the length levelled. On a garden
// they are far stricter than the rule by set-ups, which governs.
func orders(length, misclosure float64) []Order {
	if length <= 0 {
		return nil
	}
	root := math.Sqrt(length / 1000)
	out := []Order{
		{Rule: "12 mm times the root of the kilometres, third order", Source: "from memory", Allowance: 0.012 * root},
		{Rule: "4 mm times the root of the kilometres, first order", Source: "Australian Height Datum levelling specification", Allowance: 0.004 * root},
	}
	for i := range out {
		out[i].OK = math.Abs(misclosure) <= out[i].Allowance
	}
	return out
}

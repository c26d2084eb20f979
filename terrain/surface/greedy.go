package surface

import (
	"cmp"
	"math"
	"slices"
)

// best lists the first few candidates by a rank, greatest first; ranks that
// differ by rounding only are ties, and those go from west to east, then south
// to north.
func (p *plan) best(rank func(int) float64, count int) []int {
	ranks, order := make([]float64, len(p.places)), make([]int, len(p.places))
	for i := range p.places {
		ranks[i], order[i] = math.Round(1e9*rank(i)), i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(ranks[b], ranks[a]) })
	return order[:min(count, len(order))]
}

// next plans one more reading; ok is false when none is worth taking.
func (p *plan) next() (Reading, bool) {
	if i, drops := p.forDecisions(); drops != nil {
		return p.take(i, ByDecision, drops), true
	}
	if first := p.best(p.narrowing, 1); len(first) > 0 && p.narrowing(first[0]) >= worthNaming {
		return p.take(first[0], ByFall, p.drops(first[0])), true
	}
	total := func(i int) float64 { return sumOf(p.shares(i)) }
	if first := p.best(total, 1); len(first) > 0 && total(first[0]) >= leastShare {
		return p.take(first[0], ByHeight, p.drops(first[0])), true
	}
	return Reading{}, false
}

// forDecisions looks closely at the places that promise most; drops is nil when
// none is worth taking.
func (p *plan) forDecisions() (place int, drops []float64) {
	if len(p.decisions) == 0 {
		return 0, nil
	}
	now := make([]float64, len(p.decisions))
	for k := range p.decisions {
		now[k] = p.decisions[k].sum(p.decisions[k].belief, belief.quickRisk)
	}
	quick := func(i int) float64 { return p.quickDrop(now, i) }
	look := append(p.best(quick, shortlist), p.best(p.narrowing, 1)...)
	most := leastDrop
	for _, i := range look {
		if d := p.drops(i); sumOf(d) > most*(1+1e-9) {
			place, most, drops = i, sumOf(d), d
		}
	}
	return place, drops
}

// take makes the reading at candidate i, with its drops, part of the plan.
func (p *plan) take(i int, by Criterion, drops []float64) Reading {
	r := Reading{At: p.places[i].at, Repeats: p.places[i].repeats, By: by}
	shares, narrows := p.shares(i), make([]float64, len(p.decisions))
	for k := range p.decisions {
		narrows[k] = p.narrows(&p.decisions[k], i)
	}
	helped := drops
	if by == ByFall {
		helped = narrows
	}
	for n, k := range descending(helped) {
		d := &p.decisions[k]
		switch {
		case n == 0 && by == ByDecision:
			r.Before, r.After = d.risk, d.risk-drops[k]
		case n == 0 && by == ByFall:
			v := d.cov[0][0] + d.cov[1][1]
			r.Before, r.After = math.Sqrt(v), math.Sqrt(math.Max(0, v*(1-narrows[k])))
		case drops[k] < math.Max(leastDrop, worthNaming*d.risk) && (by != ByFall || narrows[k] < worthNaming):
			continue
		}
		r.Settles = append(r.Settles, d.says)
	}
	for n, k := range descending(shares) {
		v := p.areas[k].variance
		if n == 0 && by == ByHeight {
			r.Before, r.After = math.Sqrt(v), math.Sqrt(math.Max(0, v*(1-shares[k])))
		} else if shares[k] < worthNaming {
			continue
		}
		r.Settles = append(r.Settles, p.areas[k].says)
	}
	p.update(i, drops)
	return r
}

// descending is the order of values from the greatest.
func descending(values []float64) []int {
	order := make([]int, len(values))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[b], values[a]) })
	return order
}

// update brings every covariance to what it will be after a reading at
// candidate i: c(a,b) - c(a,x) c(b,x) / (c(x,x) + noise), exact with the trend
// included (Rasmussen and Williams 2006, appendix A.2, conditioning).
func (p *plan) update(i int, drops []float64) {
	sd := math.Sqrt(p.room[i])
	for k := range p.decisions {
		d := &p.decisions[k]
		d.belief = d.belief.after(p.over(d.covs[i], i))
		d.risk -= drops[k]
	}
	shares := p.shares(i)
	for k := range p.areas {
		p.areas[k].variance *= 1 - shares[k]
	}
	g := make([]float64, len(p.places))
	for j := range p.places {
		c := p.a.covariance(p.asked[j], p.asked[i])
		for _, t := range p.taken {
			c -= t[j] * t[i]
		}
		g[j] = c / sd
	}
	p.taken = append(p.taken, g)
	for k := range p.decisions {
		d := &p.decisions[k]
		h := p.over(d.covs[i], i)
		for j := range p.places {
			d.covs[j][0] -= h[0] * g[j]
			d.covs[j][1] -= h[1] * g[j]
		}
	}
	for k := range p.areas {
		at := slices.Clone(p.areas[k].covs[i])
		for j, covs := range p.areas[k].covs {
			for q := range covs {
				covs[q] -= at[q] / sd * g[j]
			}
		}
	}
	for j := range p.places {
		p.room[j] -= g[j] * g[j]
	}
}

func sumOf(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum
}

package surface

import (
	"math"
)

// decision is a question with limits still open.
type decision struct {
	figure
	limits []float64 // the open ones
	says   string
	risk   float64      // now, with the readings planned so far
	covs   [][2]float64 // covariance of the figure with each candidate, now
}

// area is a question about heights.
type area struct {
	says     string
	variance float64 // mean over the points, now
	points   int
	covs     [][]float64 // for each candidate, its covariance with each point, now
}

// plan is readings being planned one by one.
type plan struct {
	a         asker
	places    []candidate
	asked     []asked
	room      []float64   // variance of what would be read at each candidate, now
	taken     [][]float64 // for each planned reading, the covariance of each candidate with it over its standard deviation
	decisions []decision
	areas     []area
}

func newPlan(a asker, questions []Question, places []candidate) *plan {
	p := &plan{a: a, places: places}
	for _, c := range places {
		x := a.ask(c.at, heightPart)
		p.asked = append(p.asked, x)
		p.room = append(p.room, a.covariance(x, x)+a.reading(x))
	}
	for _, q := range questions {
		if len(q.Limits) > 0 {
			p.addDecision(q)
		} else {
			p.addArea(q)
		}
	}
	return p
}

func (p *plan) addDecision(q Question) {
	d := decision{figure: figureOf(p.a, q), says: q.says()}
	for _, l := range q.Limits {
		if r := d.belief.risk(l); r >= settledUnder {
			d.limits = append(d.limits, l)
			d.risk += r
		}
	}
	if len(d.limits) == 0 {
		return
	}
	for _, x := range p.asked {
		d.covs = append(d.covs, [2]float64{d.with(p.a, 0, x), d.with(p.a, 1, x)})
	}
	p.decisions = append(p.decisions, d)
}

func (p *plan) addArea(q Question) {
	ar := area{says: q.says(), points: len(q.Points), covs: make([][]float64, len(p.places))}
	for _, at := range q.Points {
		y := p.a.ask(at, heightPart)
		ar.variance += p.a.covariance(y, y) / float64(len(q.Points))
		for i, x := range p.asked {
			ar.covs[i] = append(ar.covs[i], p.a.covariance(y, x))
		}
	}
	p.areas = append(p.areas, ar)
}

// over is a pair of covariances with a candidate over its standard deviation.
func (p *plan) over(covs [2]float64, i int) [2]float64 {
	sd := math.Sqrt(p.room[i])
	return [2]float64{covs[0] / sd, covs[1] / sd}
}

// sum is the doubt left of a decision by a belief, over its open limits.
func (d *decision) sum(b belief, risk func(belief, float64) float64) float64 {
	total := 0.0
	for _, l := range d.limits {
		total += risk(b, l)
	}
	return total
}

// drops is how far a reading at candidate i lowers the risk of each decision.
func (p *plan) drops(i int) []float64 {
	out := make([]float64, len(p.decisions))
	for k := range p.decisions {
		if d := &p.decisions[k]; p.narrows(d, i) > leastNarrowing {
			out[k] = d.risk - d.sum(d.belief.after(p.over(d.covs[i], i)), belief.risk)
		}
	}
	return out
}

// quickDrop is a quick stand-in for the sum of drops, to rank candidates by;
// now is the quick risk of each decision.
func (p *plan) quickDrop(now []float64, i int) float64 {
	drop := 0.0
	for k := range p.decisions {
		if d := &p.decisions[k]; p.narrows(d, i) > leastNarrowing {
			drop += now[k] - d.sum(d.belief.after(p.over(d.covs[i], i)), belief.quickRisk)
		}
	}
	return drop
}

// shares is the share of each area's variance that a reading at candidate i
// takes away: the mean of c(q,x)^2 / (c(x,x) + noise) over it.
func (p *plan) shares(i int) []float64 {
	out := make([]float64, len(p.areas))
	for k, ar := range p.areas {
		if ar.variance > 0 {
			out[k] = dot(ar.covs[i], ar.covs[i]) / (p.room[i] * float64(ar.points) * ar.variance)
		}
	}
	return out
}

// narrows is the share of the variance of a decision's figure that a reading at
// candidate i takes away.
func (p *plan) narrows(d *decision, i int) float64 {
	v := d.cov[0][0] + d.cov[1][1]
	if !(v > 0) {
		return 0
	}
	h := p.over(d.covs[i], i)
	return (h[0]*h[0] + h[1]*h[1]) / v
}

// narrowing ranks a candidate by how far it narrows the figures of the
// decisions, whichever way they point.
func (p *plan) narrowing(i int) float64 {
	sum := 0.0
	for k := range p.decisions {
		sum += p.narrows(&p.decisions[k], i)
	}
	return sum
}

package surface

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
)

// bedNodes are the centres of 7 by 3 cells of a bed 3.6 m by 1.2 m, its long
// side east and west.
func bedNodes(middle orb.Point) (out []orb.Point) {
	for i := range 21 {
		out = append(out, orb.Point{middle[0] + 3.6/7*float64(i%7-3), middle[1] + 0.4*float64(i/7-1)})
	}
	return out
}

// Five places for one more height on the smooth ground of eight, recomputed
// independently: the mean of c(q,x)^2/(c(x,x)+noise) over the bed (Sacks et al.
// 1989), and for the decision whether the fall at (3, 8) is over 10 %
// the covariance of its gradient afterwards, E min(p',1-p') and E|p'-p| (Bect et
// al. 2012). Three criteria choose three places.
func TestOneMoreHeight(t *testing.T) {
	m := smoothOfEight(t)
	at := orb.Point{3, 8}
	cases := []struct {
		at                              orb.Point
		sd, taken, share, v11, v12, v22 float64
		wrong, change                   float64
	}{
		{orb.Point{25, 5}, .096956, 8.6904052e-6, .0131, 7.892e-5, 5.585e-5, 9.574e-5, .2083, .0153},
		{orb.Point{0, 5}, .040584, 1.3478432e-5, .0202, 4.887e-5, 2.290e-5, 5.973e-5, .1798, .1547},
		{orb.Point{10, 5}, .030462, 4.0201345e-4, .6039, 7.870e-5, 5.608e-5, 9.618e-5, .2083, .0001},
		{orb.Point{10, 7}, .026716, 4.9358461e-4, .7414, 7.838e-5, 5.621e-5, 9.614e-5, .2083, .0028},
		{orb.Point{20, 5}, .040584, 2.2620072e-6, .0034, 7.839e-5, 5.531e-5, 9.531e-5, .2083, .0223},
	}
	var places []candidate
	for _, c := range cases {
		places = append(places, candidate{at: c.at})
	}
	p := newPlan(m, []Question{
		{Name: "edge", Points: []orb.Point{at}, Limits: []float64{.1}},
		{Name: "fill", Points: bedNodes(orb.Point{9, 7})},
	}, places)
	require.Len(t, p.decisions, 1)
	require.Len(t, p.areas, 1)
	d, bed := &p.decisions[0], &p.areas[0]
	before := d.exceeds(.1, 0, 0)
	assert.InDelta(t, .208261, before, 6e-7)
	assert.InDelta(t, before, d.risk, 1e-12)
	assert.InDelta(t, 6.6574272e-4, bed.variance, 5e-12)
	for i, c := range cases {
		assert.InDelta(t, c.sd*c.sd, p.room[i]-1e-4, 1.1e-6*c.sd, "%v", c.at)
		share := p.shares(i)[0]
		assert.InDelta(t, c.share, share, 5e-5, "%v", c.at)
		assert.InEpsilon(t, c.taken, share*bed.variance, 1e-7, "%v", c.at)
		after := d.belief.after(p.over(d.covs[i], i))
		assert.InDelta(t, c.v11, after.cov[0][0], 6e-9, "%v", c.at)
		assert.InDelta(t, c.v12, after.cov[0][1], 6e-9, "%v", c.at)
		assert.InDelta(t, c.v22, after.cov[1][1], 6e-9, "%v", c.at)
		assert.InDelta(t, c.wrong, after.expect(.1, 201, wrong), 6e-5, "%v", c.at)
		assert.InDelta(t, c.wrong, after.risk(.1), 2e-4, "%v", c.at)
		change := after.expect(.1, 201, func(p float64) float64 { return math.Abs(p - before) })
		assert.InDelta(t, c.change, change, 6e-5, "%v", c.at)
		// What is expected to be believed is what is believed now.
		assert.InDelta(t, before, after.expect(.1, nodesAlone, func(p float64) float64 { return p }), 1e-6, "%v", c.at)
	}
	assert.Equal(t, 3, p.best(func(i int) float64 { return p.shares(i)[0] }, 1)[0], "(10, 7) for the heights of the bed")
	assert.Equal(t, 0, p.best(func(i int) float64 { return p.room[i] }, 1)[0], "(25, 5) for the widest error")
	assert.Equal(t, 1, p.best(func(i int) float64 { return p.drops(i)[0] }, 1)[0], "(0, 5) for the decision")
}

// Planning three readings is refitting with three more heights: on plane,
// curved and smooth ground, whatever was read.
func TestPlannedReadingsAreRefitting(t *testing.T) {
	more := []orb.Point{{0, 5}, {10, 7}, {10, 10}}
	at, bed := orb.Point{3, 8}, bedNodes(orb.Point{9, 7})
	fits := []func([]geodata.SpotHeight) asker{
		func(s []geodata.SpotHeight) asker {
			m, err := SmoothWith(s, Hyper{Range: 12, Variance: .04, NoiseFactor: 2}, Options{Sigma: .01})
			require.NoError(t, err)
			return m
		},
		func(s []geodata.SpotHeight) asker { return linearOf(t, s, planeTerms) },
		func(s []geodata.SpotHeight) asker { return linearOf(t, s, quadraticTerms) },
	}
	for k, fit := range fits {
		p := newPlan(fit(spotsOf(eight)), []Question{
			{Points: []orb.Point{at}, Limits: []float64{.0855, .0915}},
			{Pairs: []Pair{{orb.Point{9, 7.6}, orb.Point{9, 6.4}}}, Limits: []float64{-.0875, -.0945}},
			{Points: bed},
		}, []candidate{{at: more[0]}, {at: more[1]}, {at: more[2], repeats: true}})
		spots := spotsOf(eight)
		for i := range more {
			p.take(i, ByDecision, p.drops(i))
			spots = append(spots, geodata.SpotHeight{At: more[i], Height: 7})
		}
		again := fit(spots)
		variance := 0.0
		for _, q := range bed {
			variance += again.HeightCovariance(q, q) / float64(len(bed))
		}
		assert.InEpsilon(t, variance, p.areas[0].variance, 1e-8, "fit %d", k)
		require.NotEmpty(t, p.decisions, "fit %d", k)
		v := again.GradientCovariance(at)
		for _, d := range p.decisions {
			if d.alone {
				_, sd := Drop(again, orb.Point{9, 7.6}, orb.Point{9, 6.4})
				assert.InEpsilon(t, sd*sd/1.44, d.cov[0][0], 1e-8, "fit %d", k)
				continue
			}
			for i := range 2 {
				for j := range 2 {
					assert.InDelta(t, v[i][j], d.cov[i][j], 1e-8*(v[0][0]+v[1][1]), "fit %d", k)
				}
			}
		}
	}
}

func linearOf(t testing.TB, spots []geodata.SpotHeight, terms int) *linear {
	s, err := newSurvey(spots, Options{Sigma: .01})
	require.NoError(t, err)
	l, ok := fitLinear(s, terms, nil)
	require.True(t, ok)
	return l
}

// The expected belief is the present one, whatever is planned; and the expected
// chance of deciding wrongly never grows.
func TestExpectedBeliefIsThePresentOne(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for range 40 {
		s := func() float64 { return .02 * rng.Float64() }
		a, b, c := s(), s(), s()
		now := belief{mean: [2]float64{.1 * rng.Float64(), .1 * rng.Float64()},
			cov: square{{a*a + 1e-6, a * b}, {a * b, b*b + c*c + 1e-6}}}
		one := now.after([2]float64{.8 * a, .8 * b})
		two := one.after([2]float64{0, .7 * c})
		limit := .12 * rng.Float64()
		p, last := now.exceeds(limit, 0, 0), now.risk(limit)
		for _, then := range []belief{one, two} {
			assert.InDelta(t, p, then.expect(limit, nodesAlone, func(p float64) float64 { return p }), 2e-4)
			assert.LessOrEqual(t, then.risk(limit), last+1e-3)
			last = then.risk(limit)
		}
	}
}

// The mean gradient over pairs from edge to edge is the mean of the gradients
// over the rectangle (the mean of a derivative is the difference of the ends),
// and its covariance the mean of theirs.
func TestPairsAcrossABed(t *testing.T) {
	m := smoothOfEight(t)
	const n = 40
	var pairs []Pair
	var inside []orb.Point
	for i := range n {
		x := 2 + 3.6*(float64(i)+.5)/n
		pairs = append(pairs, Pair{orb.Point{x, 6}, orb.Point{x, 7.2}})
		for j := range n {
			inside = append(inside, orb.Point{x, 6 + 1.2*(float64(j)+.5)/n})
		}
	}
	g := figureOf(m, Question{Pairs: append(pairs, Pair{orb.Point{2, 6.6}, orb.Point{5.6, 6.6}})})
	require.False(t, g.alone)
	east, north := 0.0, 0.0
	for _, p := range inside {
		v, _ := m.GradientAt(p)
		east, north = east+v.East/(n*n), north+v.North/(n*n)
	}
	assert.InDelta(t, north, g.mean[1], 2e-6)
	assert.InDelta(t, east, g.mean[0], 1e-3, "one pair stands for the length")
	f := figureOf(m, Question{Pairs: pairs})
	assert.True(t, f.alone)
	assert.InDelta(t, -north, f.mean[0], 2e-6, "a fall, from south to north")
	assert.InDelta(t, g.cov[1][1], f.cov[0][0], 1e-9)
	several := figureOf(m, Question{Points: inside[:200]})
	few := figureOf(m, Question{Points: inside[:1]})
	assert.Less(t, several.cov[0][0], few.cov[0][0])
}

// By hand: the shortest way past a square's corners and back-to-front orders.
func TestShortestWalk(t *testing.T) {
	at := func(x, y float64) Reading { return Reading{At: orb.Point{x, y}} }
	readings := []Reading{at(0, 0), at(10, 8), at(0, 8), at(10, 0), at(5, 4)}
	length := func(rs []Reading, from *orb.Point) (sum float64) {
		for i, r := range rs {
			if i > 0 {
				from = &rs[i-1].At
			}
			if from != nil {
				sum += math.Hypot(r.At[0]-from[0], r.At[1]-from[1])
			}
		}
		return sum
	}
	free := shortestWalk(readings, nil)
	require.Len(t, free, 5)
	assert.InDelta(t, 8+8+2*math.Hypot(5, 4), length(free, nil), 1e-12)
	start := orb.Point{11, 9}
	from := shortestWalk(readings, &start)
	assert.Equal(t, orb.Point{10, 8}, from[0].At)
	assert.Empty(t, shortestWalk(nil, nil))
}

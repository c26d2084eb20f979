package surface_test

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"

	"crossfall/terrain"
	"crossfall/terrain/surface"
)

// The shapes below are of no family that is fitted: each lies on a sloping
// plane, anywhere in the plot and at any bearing.

// across is the distance of a point from a line through the plot's middle part
// at a random bearing, as a function of the place.
func across(rng *rand.Rand) func(x, y float64) float64 {
	sin, cos := math.Sincos(rng.Float64() * math.Pi)
	cx, cy := 6+8*rng.Float64(), 4.5+6*rng.Float64()
	return func(x, y float64) float64 { return (x-cx)*cos + (y-cy)*sin }
}

// tilt is a plane of 2 to 8 % falling any way.
func tilt(rng *rand.Rand) func(x, y float64) float64 {
	g := 0.02 + 0.06*rng.Float64()
	sin, cos := math.Sincos(2 * math.Pi * rng.Float64())
	return func(x, y float64) float64 { return 50 + g*(x*sin+y*cos) }
}

// bankHill steps 0.3 to 0.8 m over some 1 to 3 m.
func bankHill(rng *rand.Rand) hill {
	plane, d := tilt(rng), across(rng)
	rise, width := 0.3+0.5*rng.Float64(), 0.5+rng.Float64()
	return hill{"bank", func(x, y float64) float64 { return plane(x, y) + rise/2*math.Tanh(d(x, y)/width) }}
}

// swaleHill is a furrow 0.15 to 0.45 m deep and some 3 to 7 m wide, ridgeHill
// the same turned over.
func swaleHill(rng *rand.Rand) hill { return furrow(rng, "swale", -1) }
func ridgeHill(rng *rand.Rand) hill { return furrow(rng, "ridge", 1) }

func furrow(rng *rand.Rand, name string, sign float64) hill {
	plane, d := tilt(rng), across(rng)
	rise, width := sign*(0.15+0.3*rng.Float64()), 1.5+2*rng.Float64()
	return hill{name, func(x, y float64) float64 {
		u := d(x, y) / width
		return plane(x, y) + rise*math.Exp(-u*u)
	}}
}

// terraceHill goes down in flats 5 to 8 m deep with banks of 0.2 to 0.5 m, about
// a metre wide, between them.
func terraceHill(rng *rand.Rand) hill {
	plane, d := tilt(rng), across(rng)
	rise, going := 0.2+0.3*rng.Float64(), 5+3*rng.Float64()
	return hill{"terrace", func(x, y float64) float64 {
		z, u := plane(x, y), d(x, y)
		for k := -6; k <= 6; k++ {
			z += rise / 2 * math.Tanh((u-(float64(k)+0.5)*going)/0.4)
		}
		return z
	}}
}

var strangers = []func(*rand.Rand) hill{bankHill, swaleHill, ridgeHill, terraceHill}

// covered counts how often the 95 % interval of the fall held the truth.
type covered struct {
	held, asked int
	needed      []float64 // how many times wider each interval had to be
}

func (c *covered) add(needed float64) {
	c.asked++
	if needed <= 1 {
		c.held++
	}
	c.needed = append(c.needed, needed)
}

func (c covered) share() float64 { return float64(c.held) / float64(max(1, c.asked)) }

func (c covered) and(d covered) covered {
	return covered{c.held + d.held, c.asked + d.asked, nil}
}

// wide is how many times wider the intervals have to be to hold the truth nine
// times in ten.
func (c covered) wide() float64 {
	slices.Sort(c.needed)
	return c.needed[len(c.needed)*9/10]
}

// coverageOf surveys one kind of ground again and again, each time another such
// ground with another survey and a fit of its own, and asks 25 inner places and
// 12 beds of 3.6 by 1.2 m for their fall.
func coverageOf(t testing.TB, draw func(*rand.Rand) hill, n, repeats int) (places, beds covered) {
	rng := rand.New(rand.NewPCG(20260214, uint64(n)))
	for range repeats {
		h := draw(rng)
		fit := fitOf(t, h.survey(rng, n, 0.012), surface.Options{})
		for i := range 25 {
			p := orb.Point{4 + 3*float64(i%5), 3 + 2.25*float64(i/5)}
			g, _ := fit.GradientAt(p)
			east, north := h.gradient(p)
			places.add(needed(fit, g, fit.GradientCovariance(p), math.Hypot(east, north)))
		}
		for range 12 {
			g, cov, truth := underBed(rng, h, fit)
			beds.add(needed(fit, g, cov, truth))
		}
	}
	return places, beds
}

// needed is how many times wider the interval of a fall has to be to hold the
// truth.
func needed(fit *surface.Fit, g terrain.Gradient, cov [2][2]float64, truth float64) float64 {
	least, most := 0.0, 64.0
	for range 30 {
		middle := (least + most) / 2
		if _, low, high := surface.FallInterval(g, cov, middle*fit.Quantile); truth >= low && truth <= high {
			most = middle
		} else {
			least = middle
		}
	}
	return most
}

// underBed is the mean gradient between the middles of opposite sides of a bed
// anywhere at any bearing, and the true fall of that mean.
func underBed(rng *rand.Rand, h hill, fit *surface.Fit) (g terrain.Gradient, cov [2][2]float64, truth float64) {
	sin, cos := math.Sincos(math.Pi * rng.Float64())
	c := orb.Point{3 + 14*rng.Float64(), 3 + 9*rng.Float64()}
	at := func(u, v float64) orb.Point { return orb.Point{c[0] + u*cos - v*sin, c[1] + u*sin + v*cos} }
	ends := [2][2]orb.Point{{at(-1.8, 0), at(1.8, 0)}, {at(0, -0.6), at(0, 0.6)}}
	over := [2]float64{3.6, 1.2}
	var m, w [2]float64
	for i, e := range ends {
		a, _ := fit.HeightAt(e[0])
		b, _ := fit.HeightAt(e[1])
		m[i] = (b - a) / over[i]
		w[i] = (h.height(e[1][0], e[1][1]) - h.height(e[0][0], e[0][1])) / over[i]
		for j, f := range ends {
			cov[i][j] = (fit.HeightCovariance(e[1], f[1]) - fit.HeightCovariance(e[1], f[0]) -
				fit.HeightCovariance(e[0], f[1]) + fit.HeightCovariance(e[0], f[0])) / (over[i] * over[j])
		}
	}
	// The fall does not depend on the axes that its parts are given in.
	return terrain.Gradient{East: m[0], North: m[1]}, cov, math.Hypot(w[0], w[1])
}

// The 95 % interval of the fall holds the truth at least nine times in ten on
// ground of none of the fitted families. A few surveys of each are taken, which
// leave a share uncertain by several points; with CROSSFALL_COVERAGE=60 that
// many are, each shape has to pass for itself, and the log is the table of
// DEVELOPERS.md.
func TestFallCoversStrangeGround(t *testing.T) {
	repeats, least := 8, 0.85
	if v, err := strconv.Atoi(os.Getenv("CROSSFALL_COVERAGE")); err == nil {
		repeats, least = v, 0.90
	}
	for _, n := range []int{9, 15, 30, 60} {
		var ofPlaces, ofBeds covered
		for _, draw := range strangers {
			places, beds := coverageOf(t, draw, n, repeats)
			name := draw(rand.New(rand.NewPCG(1, 1))).name
			t.Logf("%d heights on a %s: over the plot %.2f, under beds %.2f; intervals for 0.90 %.2f and %.2f times as wide",
				n, name, places.share(), beds.share(), places.wide(), beds.wide())
			assert.GreaterOrEqual(t, places.share(), least, "%d %s, over the plot", n, name)
			assert.GreaterOrEqual(t, beds.share(), least, "%d %s, under beds", n, name)
			ofPlaces, ofBeds = ofPlaces.and(places), ofBeds.and(beds)
		}
		assert.GreaterOrEqual(t, ofPlaces.share(), 0.90, "%d, over the plot", n)
		assert.GreaterOrEqual(t, ofBeds.share(), 0.90, "%d, under beds", n)
	}
}

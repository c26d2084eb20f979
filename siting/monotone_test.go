package siting_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"crossfall/geodata"
	"crossfall/siting"
)

const rounding = 1e-9

// slopedPlot is plane ground of a fall, read without error, with one bed on it.
func slopedPlot(t *rapid.T, fall, bearing, turn float64) *geodata.Plot {
	sin, cos := math.Sincos(bearing)
	p := &geodata.Plot{Name: "plane", Frame: geodata.Frame{North: "the +y axis"}, BoundaryDrawn: true}
	p.Boundary = orb.Polygon{{{0, 0}, {16, 0}, {16, 12}, {0, 12}, {0, 0}}}
	for i := range 20 {
		at := orb.Point{3.5*float64(i%5) + 1, 3.3*float64(i/5) + 1}
		p.Spots = append(p.Spots, geodata.SpotHeight{Name: fmt.Sprintf("h%d", i+1), At: at, Height: 40 + fall*(sin*at[0]+cos*at[1]), Readings: 1})
	}
	none, precision, rain := 0, 5.0, 10.0
	p.Site.Beds.Count, p.Site.Ground.Precision, p.Site.Ground.Surface = &none, &precision, "plane"
	p.Site.Rain.M5Hour = &rain // so little that the sheet, which is thinner where it is steeper, decides no edge
	p.Fixtures = []geodata.Fixture{turnedBed("bed", orb.Point{8, 6}, turn)}
	return p
}

// alike tells whether two beds differ at most in what loads and depths make.
func alike(a, b siting.Bed) bool {
	return a.Edge == b.Edge && a.Build != nil && b.Build != nil && sameShape(a, b) &&
		(a.Pegs == nil || a.Pegs.Count == b.Pegs.Count && a.SunkenDepth.Value == b.SunkenDepth.Value)
}

func TestSteeperGroundNeverTakesShorterPegs(t *testing.T) {
	compared := 0
	fewChecks(t, 10, func(t *rapid.T) {
		fall, more := rapid.Float64Range(0.04, 0.2).Draw(t, "fall"), rapid.Float64Range(1, 1.2).Draw(t, "more")
		bearing, turn := rapid.Float64Range(0, 6.28).Draw(t, "bearing"), rapid.Float64Range(0, 3.14).Draw(t, "turn")
		a := assessed(t, slopedPlot(t, fall, bearing, turn)).Beds[0]
		b := assessed(t, slopedPlot(t, fall*more, bearing, turn)).Beds[0]
		if a.SheetDepth.Value > 2 {
			t.Fatalf("a sheet of %v mm may decide an edge", a.SheetDepth)
		}
		if b.Edge.Severity() < a.Edge.Severity() {
			t.Fatalf("%s on a fall of %v, %s when steeper", a.Edge, fall, b.Edge)
		}
		if alike(a, b) && a.Pegs != nil {
			compared++
			if b.Pegs.Embedment.Value < a.Pegs.Embedment.Value-rounding {
				t.Fatalf("pegs %v and %v mm", a.Pegs.Embedment, b.Pegs.Embedment)
			}
		}
	})
	atLeastSome(t, compared)
}

func TestDeeperCompostNeverTakesLowerBoards(t *testing.T) {
	compared := 0
	fewChecks(t, 10, func(t *rapid.T) {
		p := slopedPlot(t, rapid.Float64Range(0.01, 0.2).Draw(t, "fall"), rapid.Float64Range(0, 6.28).Draw(t, "bearing"), rapid.Float64Range(0, 3.14).Draw(t, "turn"))
		depth := rapid.Float64Range(60, 250).Draw(t, "depth")
		p.Site.Beds.Depth = &depth
		a := assessed(t, p).Beds[0]
		deep := depth * rapid.Float64Range(1, 1.4).Draw(t, "more")
		p.Site.Beds.Depth = &deep
		b := assessed(t, p).Beds[0]
		if a.Edge != b.Edge || a.BoardHeightDownhill == nil || b.BoardHeightDownhill == nil ||
			a.Build.BaysAcross != b.Build.BaysAcross || a.Build.BaysAlong != b.Build.BaysAlong || b.Build.Fill < a.Build.Fill {
			return
		}
		compared++
		over := func(b siting.Bed, height *geodata.Estimate) float64 {
			if b.SunkenDepth == nil {
				return height.Value
			}
			return height.Value - b.SunkenDepth.Value
		}
		if over(b, b.BoardHeightDownhill) < over(a, a.BoardHeightDownhill)-rounding || over(b, b.BoardHeightUphill) < over(a, a.BoardHeightUphill)-rounding {
			t.Fatalf("%v mm of compost: %v; %v mm: %v", depth, a.Build, deep, b.Build)
		}
	})
	atLeastSome(t, compared)
}

// atLeastSome asks that a property was not passed over every time.
func atLeastSome(t *testing.T, compared int) {
	t.Helper()
	t.Logf("%d compared", compared)
	if compared == 0 {
		t.Error("nothing was compared")
	}
}

// With the surface and the error of a reading given, one more height narrows what
// is known or leaves it. The height stands on the surface that was fitted, so that
// the fall itself stays.
func TestAnotherHeightNeverWidensAnInterval(t *testing.T) {
	fewChecks(t, 10, func(t *rapid.T) {
		l := drawnLand(t)
		l.bend, l.wave = 0, 0
		p := surveyed(t, l, rapid.IntRange(9, 20).Draw(t, "heights"))
		p.Site.Ground.Surface = "plane"
		a := assessed(t, p)
		at := orb.Point{rapid.Float64Range(0.2, 15.8).Draw(t, "x"), rapid.Float64Range(0.2, 11.8).Draw(t, "y")}
		more := *p
		more.Spots = append(append([]geodata.SpotHeight(nil), p.Spots...), geodata.SpotHeight{Name: "one more", At: at, Height: onPlane(a, at), Readings: 1})
		b := assessed(t, &more)
		width := func(what string, x, y geodata.Estimate) {
			if y.High-y.Low > (x.High-x.Low)*(1+1e-6)+rounding {
				t.Fatalf("%s: %v became %v", what, x, y)
			}
		}
		width("fall of the plot", a.Ground.FallPercent, b.Ground.FallPercent)
		for i := range a.Beds {
			width("fall", a.Beds[i].FallPercent, b.Beds[i].FallPercent)
			width("fall across", a.Beds[i].FallAcross, b.Beds[i].FallAcross)
			width("fall along", a.Beds[i].FallAlong, b.Beds[i].FallAlong)
		}
	})
}

// onPlane is the height of the fitted plane at a place, from three heights less
// what the plane leaves of them.
func onPlane(a *siting.Assessment, at orb.Point) float64 {
	h := a.Ground.Heights
	best := [3]int{}
	area := 0.0
	for i := range h {
		for j := range i {
			for k := range j {
				if s := math.Abs(cross(h[i].At, h[j].At, h[k].At)); s > area {
					area, best = s, [3]int{i, j, k}
				}
			}
		}
	}
	p, q, r := h[best[0]], h[best[1]], h[best[2]]
	whole := cross(p.At, q.At, r.At)
	level := func(x siting.Height) float64 { return x.Height - x.Residual/1000 }
	return (cross(at, q.At, r.At)*level(p) + cross(p.At, at, r.At)*level(q) + cross(p.At, q.At, at)*level(r)) / whole
}

func cross(a, b, c orb.Point) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

func TestMoreRainNeverBringsLessRunOn(t *testing.T) {
	fewChecks(t, 8, func(t *rapid.T) {
		p := drawnPlot(t)
		hour := rapid.Float64Range(10, 25).Draw(t, "rain")
		more := hour * rapid.Float64Range(1, 1.5).Draw(t, "more")
		p.Site.Rain.M5Hour = &hour
		a := assessed(t, p)
		p.Site.Rain.M5Hour = &more
		b := assessed(t, p)
		for i, m := range a.Beds {
			n := b.Beds[i]
			for _, v := range [][2]float64{
				{m.RunOnRate.Value, n.RunOnRate.Value}, {m.RunOnRate.Low, n.RunOnRate.Low}, {m.RunOnRate.High, n.RunOnRate.High},
				{m.SheetDepth.Value, n.SheetDepth.Value}, {m.SheetDepth.High, n.SheetDepth.High}, {float64(m.Edge.Severity()), float64(n.Edge.Severity())},
			} {
				if v[1] < v[0]-rounding {
					t.Fatalf("%v mm in the hour: %v l/s, %v mm, %s; %v mm: %v l/s, %v mm, %s", hour, m.RunOnRate, m.SheetDepth, m.Edge, more, n.RunOnRate, n.SheetDepth, n.Edge)
				}
			}
		}
	})
}

// The compost of all beds is that of each assessed alone, taken together.
func TestVolumesAdd(t *testing.T) {
	fewChecks(t, 8, func(t *rapid.T) {
		p := drawnPlot(t)
		all := assessed(t, p)
		sum, built := 0.0, 0.0
		for i, f := range p.Fixtures {
			alone := *p
			alone.Fixtures = []geodata.Fixture{f}
			sum += assessed(t, &alone).Quantities.Compost.Value
			if b := all.Beds[i].Build; b != nil {
				built += b.Compost.Value
			}
		}
		if got := all.Quantities.Compost.Value; math.Abs(got-sum) > 1e-9*(1+sum) || math.Abs(got-built) > 1e-9*(1+built) {
			t.Fatalf("%v m³ together, %v one by one, %v in the beds", got, sum, built)
		}
	})
}

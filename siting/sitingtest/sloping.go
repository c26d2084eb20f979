// Package sitingtest holds an Assessment made by hand, for the tests of what
// shows one. Its figures are plausible for a plot falling 1 in 11, but nothing
// here was computed by siting; no program may import it.
package sitingtest

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/caution"
	"crossfall/siting/frame"
	"crossfall/siting/setout"
	"crossfall/siting/takeoff"

	"github.com/paulmach/orb"
)

// Odd is a text that HTML and XML must escape.
const Odd = `the shed's "old" cable <unmarked> & live`

// Sloping is a plot of 18 m by 12 m falling south-south-east, with a bed of
// every class, a stop, and each kind of drawn feature.
func Sloping() *siting.Assessment {
	return &siting.Assessment{
		SchemaVersion: siting.SchemaVersion,
		Name:          "Upper field & orchard",
		Frame: siting.Frame{
			Coordinates: "local metres", North: "magnetic north", AxisBearing: 12,
			Width: 18, Depth: 12, Area: 207.5, BoundaryDrawn: true,
			Boundary: []orb.Point{{0, 0}, {18, 0}, {18, 11}, {15, 12}, {0, 12}, {0, 0}},
		},
		Ground:      ground(),
		Water:       water(),
		OrderOfWork: orderOfWork(),
		Beds:        beds(),
		Layout:      layout(),
		Carrying:    carrying(),
		Quantities:  quantities(),
		SettingOut:  settingOut(),
		Cautions:    cautions(),
		Features:    features(),
		Assumptions: assumptions(),
		Working:     working(),
		Findings: geodata.Faults{{
			Code: "units-assumed", Severity: geodata.Note, Pos: geodata.Pos{File: "heights.csv", Line: 1},
			Message: "no unit in the header; metres were taken",
		}},
	}
}

// heightAt is the ground that the example was drawn on.
func heightAt(p orb.Point) float64 {
	return 12 - .091*(.342*p[0]-.940*(p[1]-12)) + .05*math.Sin(p[0]/4)
}

func ground() siting.Ground {
	g := siting.Ground{
		Surface: "plane", SurfaceWhy: "a curved surface fits no better than its errors allow",
		FallPercent: geodata.Estimate{Value: 9.1, Low: 8.4, High: 9.8}, FallSaid: "9.1 % (8.4 to 9.8), 1 in 11",
		Determined: true, RunoffBearing: interval(160, 156, 164.4),
		LeastFall:    siting.FallAt{Percent: geodata.Estimate{Value: 8.2, Low: 7.1, High: 9.3}, At: orb.Point{2, 10}},
		GreatestFall: siting.FallAt{Percent: geodata.Estimate{Value: 10.4, Low: 9.2, High: 11.6}, At: orb.Point{12, 2}},
		Precision:    10, ResidualSpread: 11.6,
		Suspects:   []siting.Suspect{{Name: "h14", Reason: "stands 84 mm above what its neighbours say, over four standard errors; read it again"}},
		NextHeight: "a height near the south-east corner would settle whether Bed 4 is stepped", NextHeightAt: &orb.Point{16.5, 1},
		ContourInterval: .2, ContourUnits: geodata.Metric,
		Hollows: []siting.Hollow{{
			At: orb.Point{14.6, 1.2}, Depth: 42, Area: 1.9, Volume: .03, Spill: orb.Point{15.4, .4},
			Outline: []orb.Point{{13.8, .9}, {14.5, .5}, {15.4, .8}, {15.5, 1.6}, {14.7, 2}, {13.9, 1.7}},
		}},
		Notes: []string{"the ground between x 12 and 18 was surveyed at four points only"},
	}
	for i, p := range spots() {
		g.Heights = append(g.Heights, siting.Height{Name: name("h", i+1), At: p, Height: heightAt(p), Residual: float64(i%5-2) * 4})
	}
	for i := range 6 {
		g.Contours = append(g.Contours, contour(10.6+.2*float64(i)))
	}
	return g
}

func spots() []orb.Point {
	var out []orb.Point
	for _, x := range []float64{.4, 4.5, 9, 13.2, 17.4} {
		for _, y := range []float64{.5, 4.2, 7.8, 10.8} {
			out = append(out, orb.Point{x + .1*y, y}, orb.Point{x + .35, y + .25})
		}
	}
	return out[:len(out)-2]
}

// contour walks the plot from west to east along one height.
func contour(level float64) siting.Contour {
	c := siting.Contour{Level: level}
	for i := range 73 {
		x := float64(i) / 4
		y := 12 + (level-12-.05*math.Sin(x/4)+.091*.342*x)/(.091*.940)
		if y > 0 && y < 12-math.Max(0, x-15)/3 {
			c.Points = append(c.Points, orb.Point{x, y})
		}
	}
	return c
}

func water() siting.Water {
	return siting.Water{
		WinterRain: &geodata.Estimate{Value: 412, Low: 330, High: 510}, WinterMonths: "October to March",
		WinterSource: "twelve monthly means in rain.csv",
		DesignRain:   geodata.Estimate{Value: 24, Low: 18, High: 31}, DesignSource: "60-minute rain met once in 5 years, scaled from the default",
		DesignSaid: "a 15-minute storm met once in 10 winters on wet turf", Storm: "not run",
		Paths: []siting.Path{
			{Name: "path 1", Said: "enters at the north edge, passes west of Bed 1 and leaves at the south edge", Length: 12.4,
				Points: []orb.Point{{.9, 11.8}, {1.1, 9.4}, {1.6, 6.2}, {1.9, 3.1}, {2.6, .1}}},
			{Name: "path 2", Said: "gathers above Bed 3 and fills the hollow", Length: 7.9,
				Points: []orb.Point{{12.6, 8.4}, {13.1, 6.2}, {13.6, 4}, {14.4, 1.8}}},
		},
	}
}

// along is the direction of the long sides, up the direction uphill.
var (
	along = orb.Point{.940, .342}
	up    = orb.Point{-.342, .940}
)

func at(c orb.Point, right, uphill float64) orb.Point {
	return orb.Point{c[0] + along[0]*right + up[0]*uphill, c[1] + along[1]*right + up[1]*uphill}
}

// bed places a bed of 3.6 m by 1.2 m.
func bed(name string, c orb.Point, edge frame.Class) siting.Bed {
	b := siting.Bed{
		Name: name, Length: 3.6, Width: 1.2, Centre: c, LongSide: 82,
		FallPercent: geodata.Estimate{Value: 9.1, Low: 8.4, High: 9.8},
		FallAcross:  geodata.Estimate{Value: 109, Low: 101, High: 118}, FallAlong: geodata.Estimate{Value: 0, Low: 0, High: 22},
		FallSaid: "9.1 % (8.4 to 9.8), 1 in 11", FallTold: true, RunoffBearing: interval(160, 156, 164.4), LowEnd: "right",
		Edge: edge, EdgeFirm: true, EdgeRange: []frame.Class{edge, edge},
		EdgeBecause: "the fall is over 5 % across the bed and the compost retained stays under 210 mm",
		NextEdge:    "boarded with sunken edges and pegs above a fall of 10 %",
		RunOnLength: geodata.Estimate{Value: 4.2, Low: 3.1, High: 9}, RunOnRate: geodata.Estimate{Value: .062, Low: .031, High: .19},
		SheetDepth: geodata.Estimate{Value: 1.4, Low: .9, High: 2.6},
	}
	for i, q := range [4][2]float64{{-1.8, .6}, {1.8, .6}, {1.8, -.6}, {-1.8, -.6}} {
		p := at(c, q[0], q[1])
		b.Corners[i] = siting.Corner{p[0], p[1], heightAt(p)}
	}
	return b
}

// built gives a bed its boards, and pegs when any are asked for.
func built(b siting.Bed, sunken float64, pegs int) siting.Bed {
	b.Build = &siting.Build{
		FillWished: 150, Fill: 120, Retained: geodata.Estimate{Value: 184, Low: 172, High: 197},
		Compost: geodata.Estimate{Value: .613, Low: .58, High: .65}, TopAcross: 5, TopAlong: 0,
		BoardUphill: 150, BoardDownhill: 225, BoardThickness: 38, BoardLife: geodata.Estimate{Value: 7, Low: 5, High: 10},
		BaysAcross: 1, BaysAlong: 1, CrossBoards: 1, SlipFactor: 1.82,
		Changes: []string{"depth of compost brought from 150 mm to 120 mm so that one board of 225 mm retains it"},
	}
	b.BoardHeightUphill = &geodata.Estimate{Value: 131, Low: 124, High: 138}
	b.BoardHeightDownhill = &geodata.Estimate{Value: 224, Low: 212, High: 237}
	if sunken > 0 {
		b.SunkenDepth = &geodata.Estimate{Value: sunken, Low: 30, High: 60}
	}
	if pegs > 0 {
		b.Pegs = &siting.Pegs{
			Count: pegs, Spacing: 1800, Embedment: geodata.Estimate{Value: 200, Low: 180, High: 240}, Length: 365, Size: 50,
			FactorWinter: 2.04, FactorDrained: 2.6, FactorBlocked: 1.31,
		}
		for i := range pegs / 2 {
			right := -1.8 + 3.6*float64(i)/float64(pegs/2-1)
			b.Pegs.Positions = append(b.Pegs.Positions, at(b.Centre, right, .625), at(b.Centre, right, -.625))
		}
	}
	return b
}

func beds() []siting.Bed {
	b1 := built(bed("Bed 1", orb.Point{5.2, 9.2}, frame.Boarded), 0, 6)
	b2 := built(bed("Bed 2", orb.Point{5.9, 7.1}, frame.SunkenEdges), 50, 6)
	b2.EdgeFirm, b2.EdgeRange = false, []frame.Class{frame.Boarded, frame.SunkenEdges}
	b2.Cautions = []string{"retained-height.bed-2"}
	weigh(&b2)
	b3 := built(bed("Bed 3", orb.Point{10.8, 5.2}, frame.Stepped), 50, 8)
	b3.Build.BaysAlong, b3.Build.StepRise, b3.Build.CrossBoards = 3, 110, 4
	b4 := bed("Bed 4", orb.Point{11.4, 3}, frame.OpenEdged)
	b4.Build = &siting.Build{FillWished: 100, Fill: 100, Retained: geodata.Exactly(0), Compost: geodata.Estimate{Value: .43, Low: .41, High: .45}, SlipFactor: 4.4}
	b5 := bed("Bed 5", orb.Point{15.4, 8.6}, frame.DoNotBuild)
	b5.EdgeBecause, b5.NextEdge = "pegs would stand within 0.6 m of the power to the shed", "boarded, if the bed moves 0.9 m west"
	b5.Cautions = []string{"service-conflict.bed-5.power-to-shed"}
	out := []siting.Bed{b1, b2, b3, b4, b5}
	reached(out)
	return out
}

func quantities() takeoff.List {
	whole := func(l float64) []takeoff.Piece { return []takeoff.Piece{{For: "Bed 1, downhill side", Length: l}} }
	return takeoff.List{
		Compost: geodata.Estimate{Value: 2.27, Low: 2.15, High: 2.4}, CompostOrder: geodata.Estimate{Value: 2.61, Low: 2.5, High: 2.84},
		Loads: geodata.Estimate{Value: 51, Low: 48, High: 54}, Mass: geodata.Estimate{Value: 1362, Low: 1180, High: 1540}, Cardboard: 36,
		Boards: []takeoff.BoardLine{
			{Height: 225, Thickness: 38, Length: 3600, Count: 3, Proved: true, Cuts: []takeoff.Cut{
				{Pieces: whole(3600)},
				{Pieces: []takeoff.Piece{{For: "Bed 2, downhill side", Length: 3600}}},
				{Pieces: []takeoff.Piece{{For: "Bed 1, left end", Length: 1150}, {For: "Bed 1, right end", Length: 1150}, {For: "Bed 2, left end", Length: 1150}}, Waste: 141},
			}},
			{Height: 150, Thickness: 38, Length: 3600, Count: 1, Cuts: []takeoff.Cut{{Pieces: []takeoff.Piece{{For: "Bed 1, uphill side", Length: 3600}}}}},
		},
		Pegs: []takeoff.PegLine{{Length: 365, Size: 50, Count: 20}}, Screws: 96,
		YearlyTopUp: geodata.Estimate{Value: .54, Low: .4, High: .7}, Push: &geodata.Estimate{Value: 118, Low: 95, High: 160}, PushOn: "the steepest fall under the beds",
		Cost: &takeoff.Cost{Total: 391.5, Currency: "GBP", Missing: []string{"pegs", "screws"},
			Parts: []takeoff.CostPart{{What: "compost", Amount: 156.6}, {What: "boards", Amount: 234.9}}},
	}
}

func settingOut() setout.Sheet {
	s := setout.Sheet{Marks: []setout.Mark{{Name: "A", At: orb.Point{.2, .3}}, {Name: "B", At: orb.Point{17.6, .3}}}}
	for _, b := range beds()[:3] {
		o := setout.Bed{Name: b.Name, Length: 3.6, Width: 1.2, Diagonal: 3.795, OnFrame: [2]float64{3.797, 3.797}, Slide: 5.3, GroundKnownTo: 24,
			OnSlope: setout.Sloped{Left: 1.205, Right: 1.205, FromLeft: 3.798, FromRight: 3.795}}
		for i, side := range []string{"uphill board", "downhill board"} {
			o.Boards = append(o.Boards, setout.Board{
				Name: side, Pegs: []float64{.05, 1.8, 3.55}, Side: []string{"on its uphill side", "on its downhill side"}[i],
				Tops: [2]float64{-60 * float64(i), -60*float64(i) - 12},
			})
		}
		for i, c := range b.Corners {
			p := orb.Point{c[0], c[1]}
			o.Corners = append(o.Corners, setout.Corner{
				Name: []string{"uphill left", "uphill right", "downhill right", "downhill left"}[i], At: p,
				Ties: []setout.Tie{
					{Mark: "A", Taped: tape(p, .2, .3)}, {Mark: "B", Taped: tape(p, 17.6, .3)},
				},
				Side: "left", Error: geodata.Estimate{Value: 8, Low: 6, High: 11},
				Ellipse: &setout.Ellipse{Major: 7, Minor: 4, Axis: 80, Major95: 17, Minor95: 10},
			})
		}
		s.Beds = append(s.Beds, o)
		left, right := o.Corners[0], o.Corners[1]
		left.Name, right.Name = "left end", "right end"
		s.Rows = append(s.Rows, setout.Row{
			Name: fmt.Sprintf("row %d", len(s.Rows)+1), Ends: [2]setout.Corner{left, right},
			String: setout.Taped{Distance: 3.6, OnSlope: 3.603}, Allowed: 21,
			Beds: []setout.Along{{Bed: b.Name, To: setout.Taped{Distance: 3.6, OnSlope: 3.603}}},
		})
	}
	s.Datum = &setout.Datum{Bed: "Bed 1", At: s.Beds[0].Corners[0].At, AboveGround: 131}
	s.Steps = []setout.Step{{Do: "Tape both ends of row 1 (Bed 1) from their marks.", Minutes: geodata.Estimate{Value: 8, Low: 6, High: 13}}}
	s.Minutes = geodata.Estimate{Value: 38, Low: 27, High: 61}
	s.Left = []string{"Bed 5"}
	return s
}

// tape is the distance to a point from a mark, level and over ground that falls
// 1 in 11.
func tape(p orb.Point, x, y float64) setout.Taped {
	d := math.Hypot(p[0]-x, p[1]-y)
	return setout.Taped{Distance: d, OnSlope: d * 1.004}
}

func cautions() []caution.Caution {
	return []caution.Caution{
		{ID: "retained-height.bed-2", Severity: caution.Warning, Kind: "retained height", Bed: "Bed 2", At: &orb.Point{5.9, 7.1},
			Text: "compost 0.30 m deep stands within 1 m of a path: drain the boards and bolt the corner posts; local code rules", Source: "default of ours"},
		{ID: "service-conflict.bed-5.power-to-shed", Severity: caution.Stop, Kind: "service", Bed: "Bed 5", At: &orb.Point{15.9, 8.6},
			Text:   "pegs of Bed 5 would stand within 0.6 m of " + Odd + ": move the bed, or have the cable located; then dig by hand",
			Source: "HSE, Avoiding danger from underground services (HSG47), 3rd edition, 2014"},
		{ID: "services-unknown", Severity: caution.Note, Kind: "service",
			Text: "gas, drain and oil were not asked about: ask before you dig", Source: "common practice, no source",
			AcknowledgedBy: "the grower", AcknowledgedOn: "2025-10-02"},
	}
}

func features() []siting.Feature {
	return []siting.Feature{
		{Kind: "service", Name: "power to shed", Carries: "electricity", Points: []orb.Point{{16.6, 12.4}, {16.2, 9}, {16.5, 6.1}}, ClearanceM: .6},
		{Kind: "service", Name: "phone line", Carries: "telecoms", Overhead: true, Points: []orb.Point{{-.6, 4.9}, {5, 4.4}, {9, .2}}},
		{Kind: "obstacle", Name: "north hedge", What: "hedge", Points: []orb.Point{{0, 12}, {14.8, 12}}, HeightM: 1.8},
		{Kind: "obstacle", Name: "east fence", What: "fence", Points: []orb.Point{{18, .2}, {18, 10.8}}, HeightM: 1.2},
		{Kind: "obstacle", Name: "shed", What: "shed", Area: true, Points: []orb.Point{{15.6, 3.6}, {17.6, 3.6}, {17.6, 6.1}, {15.6, 6.1}}, HeightM: 2.2},
		{Kind: "tree", Name: "apple", Points: []orb.Point{{8.6, 10.6}}, RadiusM: 1.4, HeightM: 3.5},
		{Kind: "path", Name: "lower path", Area: true, Points: []orb.Point{{3.4, 0}, {4.2, 0}, {4.6, 3.4}, {3.8, 3.4}}},
		{Kind: "gate", Name: "gate", Points: []orb.Point{{3.4, 0}, {4.3, 0}}},
		{Kind: "heap", Name: "tipped here", Points: []orb.Point{{1.2, 1.4}}},
		{Kind: "break-line", Name: "top of bank", Points: []orb.Point{{9.8, .4}, {12.6, .9}}},
		{Kind: "no-go", Name: "newt pond", Area: true, Points: []orb.Point{{6, .6}, {8, .7}, {7.8, 2.2}, {6.2, 2}}},
		{Kind: "mark", Name: "A", Points: []orb.Point{{.2, .3}}},
		{Kind: "mark", Name: "B", Points: []orb.Point{{17.6, .3}}},
	}
}

func assumptions() []siting.Assumption {
	return []siting.Assumption{
		{What: "width of a bed", Value: "1.2 m", Set: "width_m under [beds] in site.toml"},
		{What: "standard deviation of a reading", Value: "10 mm", Set: "reading_precision_mm under [ground] in site.toml"},
	}
}

func working() []siting.Basis {
	return []siting.Basis{
		{ID: "ground.fall", Value: .091, Unit: "ratio", Low: .084, High: .098, Formula: "length of the gradient of the fitted plane",
			Source: "common practice, no source", Inputs: []siting.Input{{Name: "spot heights", Value: 38, From: "measured"}}},
		{ID: "bed-2.pegs.embedment", Value: 200, Unit: "mm", Low: 180, High: 240, Formula: "short rigid pile in clay, free head",
			Source: "Broms, Lateral resistance of piles in cohesive soils, 1964",
			Inputs: []siting.Input{{Name: "undrained strength", Value: 20, Unit: "kPa", From: "default"}, {Name: "push on the peg", Value: .1639, Unit: "kN", From: "computed"}}},
	}
}

func interval(v, low, high float64) siting.Interval {
	return siting.Interval{Value: &v, Low: &low, High: &high}
}

func name(prefix string, n int) string {
	return prefix + string(rune('0'+n/10)) + string(rune('0'+n%10))
}

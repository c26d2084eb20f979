package caution_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/caution"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func box(w, s, e, n float64) orb.Polygon {
	return orb.Polygon{orb.Ring{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}}
}

// boarded is a bed of 3.6 by 1.2 m with its lower left corner at (x, y), a
// sunken edge along the lower side and a peg at each end of it.
func boarded(name string, x, y float64) caution.Work {
	return caution.Work{
		Bed: name, Outline: box(x, y, x+3.6, y+1.2), Fill: 0.15,
		Cuts: []orb.Geometry{orb.LineString{{x, y}, {x + 3.6, y}}},
		Pegs: []orb.Point{{x + 0.1, y - 0.05}, {x + 3.5, y - 0.05}},
	}
}

func plotWith(fixtures ...geodata.Fixture) *geodata.Plot {
	return &geodata.Plot{Boundary: box(0, 0, 24, 18), BoundaryDrawn: true, Fixtures: fixtures}
}

func cable(y float64) geodata.Fixture {
	return geodata.Fixture{
		Kind: geodata.ServiceKind, Name: "Power to shed", Carries: geodata.Electricity,
		Shape: orb.LineString{{0, y}, {24, y}},
	}
}

func ExampleServices() {
	plot := plotWith(cable(4.5))
	plot.Site.Place.Country = "uk"
	for _, c := range caution.Services(plot, []caution.Work{boarded("bed 2", 10, 5)}) {
		fmt.Println(c.Severity, c.ID)
		fmt.Println(c.Text)
	}
	// Output:
	// stop service-conflict.bed-2.power-to-shed
	// bed 2: a peg comes within 0.45 m of the service "Power to shed" (electricity); keep 0.90 m away (0.60 m, widened by 0.30 m because the service is drawn but not located: default of ours). Do not drive or dig here: move the bed, or ask the service's owner and have the service located.
}

// Published distances on each side of a buried service: 24 inches, the wider of the
// United States' tolerance zones, and Michigan's 48 (from memory); 1 m in Canada (from
// memory) and from sewers in the exempt development code of New South Wales (2014),
// clause 2.29. The 500 mm of the Health and Safety Executive's HSG47 (2014, from memory)
// and what publishes less give way to 600 mm, a default of ours.
func TestClearanceFor(t *testing.T) {
	tests := []struct {
		carrier geodata.Carrier
		country string
		want    float64
		says    string
	}{
		{geodata.Gas, "", 0.60, "no country is named"},
		{geodata.Gas, "Atlantis", 0.60, `no rule is known here for "Atlantis"`},
		{geodata.Gas, "uk", 0.60, "HSG47"},
		{geodata.Gas, "England", 0.60, "HSG47"},
		{geodata.Gas, "ie", 0.60, "HSA"},
		{geodata.Gas, "US", 0.61, "24 inches"},     // 24 x 25.4 mm = 609.6 mm
		{geodata.Gas, "us-oh", 0.61, "24 inches"},  // 18 inches in Ohio: the wider one is kept
		{geodata.Gas, "us-mi", 1.2192, "Michigan"}, // 48 x 25.4 mm
		{geodata.Gas, "Canada", 1.0, "Canada"},
		{geodata.Gas, "au", 0.60, "Australia"},
		{geodata.Drain, "au", 1.0, "New South Wales"},
		{geodata.WaterPipe, "au", 1.0, "New South Wales"},
		{geodata.Gas, "nz", 0.60, "New Zealand"},
	}
	for _, tt := range tests {
		t.Run(tt.country+" "+string(tt.carrier), func(t *testing.T) {
			got, source := caution.ClearanceFor(tt.carrier, tt.country)
			assert.InDelta(t, tt.want, got, 1e-9)
			assert.Contains(t, source, tt.says)
		})
	}
}

func TestNoCountryGoesUnderTheDefault(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		country := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"uk", "ie", "us", "ca", "au", "nz"})).Draw(t, "country")
		carrier := rapid.SampledFrom(geodata.Carriers()).Draw(t, "carrier")
		got, source := caution.ClearanceFor(carrier, country)
		assert.GreaterOrEqual(t, got, caution.DefaultClearance)
		assert.NotEmpty(t, source)
	})
}

// 0.1 m for a located line and 0.3 m for a drawn one are defaults of ours.
func TestAroundWidensByTheErrorOfTheLine(t *testing.T) {
	tests := []struct {
		name string
		f    geodata.Fixture
		want float64
	}{
		{"drawn only", geodata.Fixture{}, 0.90},
		{"located", geodata.Fixture{Located: "located by tracing"}, 0.70},
		{"error given", geodata.Fixture{PositionError: 1}, 1.60},
		{"error given for a located one", geodata.Fixture{Located: "located by tracing", PositionError: 0.05}, 0.65},
		{"error that is no number", geodata.Fixture{PositionError: math.NaN()}, 0.90},
		{"error under 0", geodata.Fixture{PositionError: -1}, 0.90},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.InDelta(t, tt.want, caution.Around(tt.f, "").Needed(), 1e-12)
		})
	}
}

func TestServices(t *testing.T) {
	open := boarded("bed 1", 10, 5)
	open.Pegs, open.Cuts = nil, nil
	cutOnly := boarded("bed 1", 10, 5)
	cutOnly.Pegs = nil
	overheadLine := cable(2)
	overheadLine.Overhead = true
	located := cable(4.2) // 0.75 m from the pegs
	located.Located = "located by trial hole"
	tests := []struct {
		name     string
		f        geodata.Fixture
		w        caution.Work
		severity caution.Severity
		id       string
	}{
		{"peg too near", cable(4.1), boarded("bed 1", 10, 5), caution.Stop, "service-conflict.bed-1.power-to-shed"},
		{"peg at 0.90 m is enough, outline is not nearer", cable(4.05), boarded("bed 1", 10, 5), "", ""},
		{"cut under the line", cable(5), cutOnly, caution.Stop, "service-conflict.bed-1.power-to-shed"},
		{"nothing driven or cut", cable(5.5), open, caution.Warning, "service-near.bed-1.power-to-shed"},
		{"works far, outline near", cable(6.9), boarded("bed 1", 10, 5), caution.Warning, "service-near.bed-1.power-to-shed"},
		{"located line may come nearer", located, boarded("bed 1", 10, 5), "", ""},
		{"far off", cable(12), boarded("bed 1", 10, 5), "", ""},
		{"overhead", overheadLine, boarded("bed 1", 10, 5), caution.Warning, "service-overhead.bed-1.power-to-shed"},
		{"overhead far off", overheadLine, boarded("bed 1", 10, 8.01), "", ""},
		{"a service that was drawn without a place", geodata.Fixture{Kind: geodata.ServiceKind}, boarded("bed 1", 10, 5),
			caution.Stop, "service-conflict.bed-1.unknown-kind"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := caution.Services(plotWith(tt.f), []caution.Work{tt.w})
			if tt.id == "" {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 1)
			assert.Equal(t, tt.severity, got[0].Severity)
			assert.Equal(t, tt.id, got[0].ID)
			assert.NotEmpty(t, got[0].Source)
		})
	}
}

func TestOneStopForEachBedAndServiceAtTheNearestPoint(t *testing.T) {
	second := cable(7)
	got := caution.Services(plotWith(cable(4.6), second),
		[]caution.Work{boarded("bed 1", 2, 5), boarded("bed 2", 10, 5)})
	ids := map[string]orb.Point{}
	for _, c := range got {
		ids[c.ID] = *c.At
	}
	assert.Len(t, ids, len(got), "ids differ though the two services share a name")
	assert.Equal(t, orb.Point{2.1, 4.95}, ids["service-conflict.bed-1.power-to-shed"])
	assert.Contains(t, ids, "service-near.bed-2.power-to-shed-2")
}

// The outside check is the distance function of simplefeatures: a stop comes
// exactly when the least distance it finds is under the clearance.
func TestServiceStopAgreesWithSimplefeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string) float64 { return rapid.Float64Range(0, 12).Draw(t, label) }
		a, b := orb.Point{draw("ax"), draw("ay")}, orb.Point{draw("bx"), draw("by")}
		w := boarded("bed 1", draw("bed x"), draw("bed y"))
		f := cable(0)
		f.Shape = orb.LineString{a, b}
		if a == b {
			t.Skip("a line without length")
		}
		line := geom.NewLineStringXY(a[0], a[1], b[0], b[1]).AsGeometry()
		least := math.Inf(1)
		for _, p := range w.Pegs {
			d, _ := geom.Distance(line, geom.NewPointXY(p[0], p[1]).AsGeometry())
			least = math.Min(least, d)
		}
		cut := w.Cuts[0].(orb.LineString)
		d, _ := geom.Distance(line, geom.NewLineStringXY(cut[0][0], cut[0][1], cut[1][0], cut[1][1]).AsGeometry())
		least = math.Min(least, d)
		if math.Abs(least-0.9) < 1e-7 {
			t.Skip("on the limit")
		}
		stopped := false
		for _, c := range caution.Services(plotWith(f), []caution.Work{w}) {
			stopped = stopped || c.Severity == caution.Stop
		}
		assert.Equal(t, least < 0.9, stopped)
	})
}

func answered(words map[geodata.Carrier]string, fixtures ...geodata.Fixture) *geodata.Plot {
	p := plotWith(fixtures...)
	p.Site.Services = words
	return p
}

func allNone() map[geodata.Carrier]string {
	m := map[geodata.Carrier]string{}
	for _, c := range geodata.Carriers() {
		m[c] = "none, known by deeds"
	}
	return m
}

func TestUnlocatedAndDepthCap(t *testing.T) {
	with := func(c geodata.Carrier, word string) map[geodata.Carrier]string {
		m := allNone()
		m[c] = word
		return m
	}
	tests := []struct {
		name string
		plot *geodata.Plot
		ids  []string
		cap  float64
	}{
		{"nothing answered", answered(nil), []string{"services-unknown"}, 0.30},
		{"all known to be absent", answered(allNone()), nil, 0.45},
		{"one unknown", answered(with(geodata.Gas, "unknown")), []string{"services-unknown"}, 0.30},
		{"located and drawn", answered(with(geodata.Electricity, "Located by tracing"), cable(3)), nil, 0.45},
		{"drawn only", answered(with(geodata.Electricity, "drawn"), cable(3)), nil, 0.30},
		{"located, by nobody", answered(with(geodata.Electricity, "located by "), cable(3)), nil, 0.30},
		{"located but not drawn", answered(with(geodata.Gas, "located by tracing")), []string{"services-at-odds"}, 0.30},
		{"none, and yet drawn", answered(allNone(), cable(3)), []string{"services-at-odds"}, 0.30},
		{"drawn, and is not", answered(with(geodata.Gas, "drawn")), []string{"services-at-odds"}, 0.30},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var ids []string
			for _, c := range caution.Unlocated(tt.plot) {
				assert.Equal(t, caution.Warning, c.Severity)
				ids = append(ids, c.ID)
			}
			assert.Equal(t, tt.ids, ids)
			metres, why := caution.DepthCap(tt.plot)
			assert.InDelta(t, tt.cap, metres, 1e-12)
			assert.NotEmpty(t, why)
		})
	}
}

func TestUnlocatedNamesEveryOpenService(t *testing.T) {
	got := caution.Unlocated(answered(map[geodata.Carrier]string{
		geodata.Gas: "none, known by the supplier", geodata.Oil: "none, known by deeds", geodata.Telecoms: "unknown",
	}))
	require.Len(t, got, 1)
	assert.Contains(t, got[0].Text, "electricity, water pipes, telecoms, drains and anything else buried")
	assert.NotContains(t, got[0].Text, "gas")
	assert.NotContains(t, got[0].Text, "oil")
}

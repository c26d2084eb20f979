package plotfolder_test

import (
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// ways are plots whose features are written in every way that there is. All have
// a boundary of 20 m by 20 m, which holds the frame of degrees still, and two
// marks.
func ways() map[string]files {
	origin := geodata.LocalMetres{Origin: orb.Point{-3.5, 50.7}}
	square := []orb.Point{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}}
	marks := []orb.Point{{-9, -9}, {9, -8}}
	table := func(header, delimiter string, cell func(orb.Point) [2]string) string {
		text := header + "\n"
		row := func(kind, name string, p orb.Point) {
			c := cell(p)
			text += strings.Join([]string{kind, name, c[0], c[1]}, delimiter) + "\n"
		}
		for _, p := range square {
			row("boundary", "field", p)
		}
		for i, p := range marks {
			row("mark", fmt.Sprintf("m%d", i), p)
		}
		return text
	}
	drawing := func(to func(orb.Point) orb.Point) string {
		position := func(p orb.Point) string {
			p = to(p)
			return fmt.Sprintf("[%.9f, %.9f]", p[0], p[1])
		}
		var ring []string
		for _, p := range append(square, square[0]) {
			ring = append(ring, position(p))
		}
		text := `{"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {"kind": "boundary"}, "geometry": {"type": "Polygon", "coordinates": [[` + strings.Join(ring, ", ") + `]]}}`
		for i, p := range marks {
			text += fmt.Sprintf(`, {"type": "Feature", "properties": {"kind": "mark", "name": "m%d"}, "geometry": {"type": "Point", "coordinates": %s}}`, i, position(p))
		}
		return text + "]}"
	}
	heights := func(header string, to func(orb.Point) orb.Point) string {
		text := header + "\n"
		for i, p := range append(square, marks...) {
			q := to(p)
			text += fmt.Sprintf("h%d,%.9f,%.9f,%d\n", i, q[0], q[1], 20+i)
		}
		return strings.NewReplacer("h4,", "m0,", "h5,", "m1,").Replace(text)
	}
	same := func(p orb.Point) orb.Point { return p }
	turned := func(p orb.Point) orb.Point { // by a quarter, and away from the corner
		return orb.Point{-p[1] + 30, p[0] + 40}
	}
	decimal := func(p orb.Point) [2]string {
		return [2]string{strings.Replace(fmt.Sprintf("%.4f", p[0]/0.3048), ".", ",", 1), strings.Replace(fmt.Sprintf("%.4f", p[1]/0.3048), ".", ",", 1)}
	}
	degrees := func(p orb.Point) [2]string {
		q := origin.Back(p)
		return [2]string{fmt.Sprintf("%.9f", q[0]), fmt.Sprintf("%.9f", q[1])}
	}
	return map[string]files{
		"a table in metres":                 {"heights.csv": heights("name,x,y,z", same), "features.csv": table("kind,name,x,y", ",", func(p orb.Point) [2]string { return [2]string{fmt.Sprint(p[0]), fmt.Sprint(p[1])} })},
		"a table in feet, decimal commas":   {"heights.csv": heights("name,x (m),y (m),z (m)", same), "features.csv": table("kind;name;x (ft);y (ft);height (in)", ";", decimal)},
		"a table in degrees":                {"heights.csv": heights("name,lon,lat,z", origin.Back), "features.csv": table("kind,name,lon,lat,z", ",", degrees)},
		"a table in degrees, turned":        {"heights.csv": heights("name,x,y,z", turned), "features.csv": table("kind,name,lon,lat,z", ",", degrees)},
		"a drawing in metres":               {"heights.csv": heights("name,x,y,z", same), "plot.geojson": drawing(same), "site.toml": "coordinates = \"local\"\n"},
		"a drawing in degrees":              {"heights.csv": heights("name,lon,lat,z", origin.Back), "plot.geojson": drawing(origin.Back)},
		"a drawing in degrees, turned":      {"heights.csv": heights("name,x,y,z", turned), "plot.geojson": drawing(origin.Back)},
		"a table beside heights in degrees": {"heights.csv": heights("name,lon,lat,z", origin.Back), "features.csv": table("kind,name,x,y", ",", func(p orb.Point) [2]string { q := turned(p); return [2]string{fmt.Sprint(q[0]), fmt.Sprint(q[1])} })},
	}
}

// fixtureDrawn is a feature of a kind within a bound, with whatever may be said of
// it.
func fixtureDrawn(t *rapid.T, kind geodata.Kind, within orb.Bound) geodata.Fixture {
	unit := rapid.Float64Range(0.1, 0.9)
	at := func(u, v float64) orb.Point {
		return orb.Point{within.Min[0] + u*(within.Max[0]-within.Min[0]), within.Min[1] + v*(within.Max[1]-within.Min[1])}
	}
	maybe := func(low, high float64) float64 {
		if rapid.Bool().Draw(t, "unsaid") {
			return 0
		}
		return rapid.Float64Range(low, high).Draw(t, "figure")
	}
	f := geodata.Fixture{Kind: kind}
	u, v := unit.Draw(t, "u"), unit.Draw(t, "v")
	point := at(u, v)
	line := orb.LineString{at(u, 0.1), at(v, 0.5), at(u, 0.9)}
	s, c := math.Sincos(rapid.Float64Range(0, 6).Draw(t, "turn"))
	corner := func(x, y float64) orb.Point { return orb.Point{point[0] + c*x - s*y, point[1] + s*x + c*y} }
	area := orb.Polygon{{corner(0, 0), corner(1.5, 0), corner(1.5, 0.8), corner(0, 0.8), corner(0, 0)}}
	switch kind {
	case geodata.NoGoKind:
		f.Shape = area
	case geodata.BedKind:
		f.Shape, f.Pinned = area, rapid.Bool().Draw(t, "pinned")
	case geodata.ObstacleKind:
		f.What = rapid.SampledFrom([]string{"hedge", "shed", "tank"}).Draw(t, "what")
		f.Shape, f.TopHeight = map[string]orb.Geometry{"hedge": line, "shed": area, "tank": point}[f.What], maybe(0.05, 60)
	case geodata.TreeKind:
		f.Shape, f.TopHeight, f.StemDiameter, f.Evergreen = point, maybe(0.05, 60), maybe(0.01, 5), rapid.Bool().Draw(t, "evergreen")
	case geodata.ServiceKind:
		f.Shape, f.Carries, f.Overhead = line, rapid.SampledFrom(geodata.Carriers()).Draw(t, "carries"), rapid.Bool().Draw(t, "overhead")
		f.Located, f.Depth, f.PositionError = rapid.SampledFrom([]string{"", `located by "Ann", who dug`}).Draw(t, "located"), maybe(0.01, 20), maybe(0.01, 50)
	case geodata.PathKind:
		f.Shape = line
	case geodata.BreakLineKind:
		f.Shape = line
		if rapid.Bool().Draw(t, "heights") {
			f.Heights = []float64{20.5, 21, 20.25}
		}
	case geodata.MarkKind:
		f.Shape, f.MapEast, f.MapNorth = point, maybe(1, 1e5), maybe(1, 1e5)
	default:
		f.Shape = point
	}
	return f
}

// coordinatesOf are all figures of a shape.
func coordinatesOf(g orb.Geometry) (out []float64) {
	add := func(points ...orb.Point) {
		for _, p := range points {
			out = append(out, p[0], p[1])
		}
	}
	switch g := g.(type) {
	case orb.Point:
		add(g)
	case orb.LineString:
		add(g...)
	case orb.Polygon:
		for _, ring := range g {
			add(ring...)
		}
	}
	return out
}

// alike compares two features: lengths to a millimetre, words as they are.
func alike(t require.TestingT, want, got geodata.Fixture) {
	require.IsType(t, want.Shape, got.Shape)
	require.InDeltaSlice(t, coordinatesOf(want.Shape), coordinatesOf(got.Shape), 1e-3)
	require.InDeltaSlice(t, append([]float64{0}, want.Heights...), append([]float64{0}, got.Heights...), 1e-3)
	for _, pair := range [][2]*float64{
		{&want.TopHeight, &got.TopHeight}, {&want.StemDiameter, &got.StemDiameter}, {&want.Depth, &got.Depth},
		{&want.PositionError, &got.PositionError}, {&want.MapEast, &got.MapEast}, {&want.MapNorth, &got.MapNorth},
	} {
		require.InDelta(t, *pair[0], *pair[1], 1e-3)
		*pair[0], *pair[1] = 0, 0
	}
	for _, f := range []*geodata.Fixture{&want, &got} {
		f.Shape, f.Heights, f.Source = nil, nil, geodata.Pos{}
	}
	require.Equal(t, want, got)
}

// others are the fixtures of a plot but for one, without their places in the file.
func others(p *geodata.Plot, kind geodata.Kind, name string) (out []geodata.Fixture, one *geodata.Fixture) {
	for _, f := range p.Fixtures {
		f.Source = geodata.Pos{}
		if f.Kind == kind && f.Name == name {
			one = &f
			continue
		}
		out = append(out, f)
	}
	return out, one
}

// What is put is read back as it was put, in whatever way the file is written, and
// everything else as before; taken out, the plot is what it was.
func TestEditFeaturesComesBack(t *testing.T) {
	all := ways()
	rapid.Check(t, func(rt *rapid.T) {
		fs := all[rapid.SampledFrom(slices.Sorted(maps.Keys(all))).Draw(rt, "way")]
		dir, err := os.MkdirTemp(t.TempDir(), "plot")
		require.NoError(rt, err)
		for name, text := range fs {
			require.NoError(rt, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
		}
		read := func() *geodata.Plot {
			p, err := plotfolder.Read(dir, plotfolder.Options{})
			require.NoError(rt, err)
			return p
		}
		edit := func(e plotfolder.FeatureEdit) {
			seen, err := plotfolder.Fingerprint(dir)
			require.NoError(rt, err)
			require.NoError(rt, plotfolder.EditFeatures(dir, seen, []plotfolder.FeatureEdit{e}), "%+v", e.Put)
		}
		start := read()
		before, _ := others(start, "", "")
		kind := rapid.SampledFrom(geodata.Kinds()[1:]).Draw(rt, "kind") // the boundary has a test of its own
		name := rapid.SampledFrom([]string{"plain", `the "old" one`, "a, b; c", "# no remark", "Übergang", "tab\there"}).Draw(rt, "name")
		for range rapid.IntRange(1, 2).Draw(rt, "times") { // new, then in the place of itself
			f := fixtureDrawn(rt, kind, start.Boundary[0].Bound())
			edit(plotfolder.FeatureEdit{Kind: kind, Name: name, Put: &f})
			rest, one := others(read(), kind, name)
			require.Equal(rt, before, rest)
			require.NotNil(rt, one)
			f.Kind, f.Name = kind, name
			alike(rt, f, *one)
		}
		edit(plotfolder.FeatureEdit{Kind: kind, Name: name})
		end := read()
		rest, one := others(end, kind, name)
		require.Nil(rt, one)
		require.Equal(rt, before, rest)
		require.Equal(rt, start.Boundary, end.Boundary)
		require.Equal(rt, start.Frame, end.Frame)
	})
}

// A boundary of other corners moves the origin of degrees with it: what is drawn
// stays where it is on the ground.
func TestEditFeaturesMovesTheBoundary(t *testing.T) {
	for way, fs := range ways() {
		dir := folder(t, fs)
		start, err := plotfolder.Read(dir, plotfolder.Options{})
		require.NoError(t, err)
		var ring []orb.Point
		for _, p := range start.Boundary[0][:4] {
			ring = append(ring, orb.Point{p[0] + 0.5, p[1]})
		}
		require.NoError(t, plotfolder.EditFeatures(dir, fingerprint(t, dir), []plotfolder.FeatureEdit{{Kind: geodata.BoundaryKind, Boundary: ring}}), way)
		end, err := plotfolder.Read(dir, plotfolder.Options{})
		require.NoError(t, err, way)
		mark := func(p *geodata.Plot) orb.Point { return p.OfKind(geodata.MarkKind)[0].Shape.(orb.Point) }
		for i, p := range ring { // as seen from a mark, since the origin may move
			for axis := range 2 {
				require.InDelta(t, p[axis]-mark(start)[axis], end.Boundary[0][i][axis]-mark(end)[axis], 1e-3, way)
			}
		}
		require.Len(t, end.Fixtures, len(start.Fixtures))
	}
}

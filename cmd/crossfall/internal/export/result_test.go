package export_test

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"slices"
	"sync"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plots are the plots of testdata, assessed for all tests.
var plots = []string{"hillside", "hillside-pinned", "claybank", "davis"}

// once keeps the assessments of the plots, which nothing changes.
var once sync.Map

// assessed is a plot of testdata, assessed.
func assessed(t testing.TB, plot string) *siting.Assessment {
	t.Helper()
	assess, _ := once.LoadOrStore(plot, sync.OnceValues(func() (*siting.Assessment, error) {
		p, err := plotfolder.Read("../../../../testdata/"+plot, plotfolder.Options{})
		if err != nil {
			return nil, err
		}
		return siting.Assess(context.Background(), p, siting.Options{Readings: 3})
	}))
	a, err := assess.(func() (*siting.Assessment, error))()
	require.NoError(t, err)
	return a
}

// onEarth is an assessment with its place set, the +y axis turned.
func onEarth(a *siting.Assessment) *siting.Assessment {
	moved := *a
	moved.Frame.Origin, moved.Frame.AxisBearing, moved.Frame.North = &orb.Point{-2.9, 51.2}, 30, "true north"
	return &moved
}

// readFeature is a feature as it is read back, in the plot's frame.
type readFeature struct {
	ID       string
	Geometry struct {
		Type        string
		Coordinates json.RawMessage
	}
	Properties map[string]any
}

// ring is the outer ring of a polygon, line or point, in the plot's frame.
func (f readFeature) places(t *testing.T, frame siting.Frame) (out []orb.Point) {
	t.Helper()
	switch f.Geometry.Type {
	case "Point":
		out = make([]orb.Point, 1)
		require.NoError(t, json.Unmarshal(f.Geometry.Coordinates, &out[0]))
	case "LineString":
		require.NoError(t, json.Unmarshal(f.Geometry.Coordinates, &out))
	case "Polygon":
		var rings [][]orb.Point
		require.NoError(t, json.Unmarshal(f.Geometry.Coordinates, &rings))
		out = rings[0]
	default:
		require.Fail(t, "a shape of type "+f.Geometry.Type)
	}
	if frame.Origin == nil {
		return out
	}
	sin, cos := math.Sincos(frame.AxisBearing * math.Pi / 180)
	local := geodata.LocalMetres{Origin: *frame.Origin}
	for i, p := range out {
		q := local.From(p) // east and north; the axis turns
		out[i] = orb.Point{q[0]*cos - q[1]*sin, q[0]*sin + q[1]*cos}
	}
	return out
}

func readResult(t *testing.T, a *siting.Assessment) []readFeature {
	t.Helper()
	var b, again bytes.Buffer
	require.NoError(t, export.GeoJSON(&b, a))
	require.NoError(t, export.GeoJSON(&again, a))
	require.Equal(t, b.String(), again.String(), "the same bytes")
	var c struct{ Features []readFeature }
	require.NoError(t, json.Unmarshal(b.Bytes(), &c))
	return c.Features
}

func ofKind(all []readFeature, kind string) []readFeature {
	return slices.DeleteFunc(slices.Clone(all), func(f readFeature) bool { return f.Properties["kind"] != kind })
}

// Distances between what was written must be those that people tape, to 1 mm.
const tapeError = 0.001

func TestResultGeoJSON(t *testing.T) {
	for _, plot := range plots {
		local := assessed(t, plot)
		for name, a := range map[string]*siting.Assessment{plot: local, plot + " on the earth": onEarth(local)} {
			t.Run(name, func(t *testing.T) {
				all := readResult(t, a)
				ids := map[string]bool{}
				for _, f := range all {
					assert.False(t, ids[f.ID], "id %s is used twice", f.ID)
					ids[f.ID] = true
				}
				beds := ofKind(all, "bed")
				require.Len(t, beds, len(a.Beds))
				pegs, ways := 0, 0
				for i, b := range a.Beds {
					at := beds[i].places(t, a.Frame)
					assert.Greater(t, orb.Ring(at).Orientation(), orb.CW, "outer rings run counterclockwise")
					assert.InDelta(t, b.Length*b.Width, planar.Area(orb.Polygon{at}), 0.002*(b.Length+b.Width), b.Name)
					slices.Reverse(at) // from the uphill left again, clockwise
					assert.InDelta(t, b.Length, planar.Distance(at[0], at[1]), tapeError)
					assert.InDelta(t, b.Width, planar.Distance(at[1], at[2]), tapeError)
					if b.Pegs != nil {
						pegs += b.Pegs.Count
					}
					if b.Access != nil && len(b.Access.Route) > 1 {
						ways++
					}
				}
				assert.Len(t, ofKind(all, "peg"), pegs)
				assert.Len(t, ofKind(all, "way for compost"), ways)
				assert.Len(t, ofKind(all, "contour"), len(a.Ground.Contours))
				assert.Len(t, ofKind(all, "hollow"), len(a.Ground.Hollows))
				assert.Len(t, ofKind(all, "spot height"), len(a.Ground.Heights))
				boundary := ofKind(all, "boundary")
				require.Len(t, boundary, 1)
				assert.InDelta(t, a.Frame.Area, planar.Area(orb.Polygon{boundary[0].places(t, a.Frame)}), 0.05)
				taped(t, a, all)
			})
		}
	}
}

// taped compares the distances from marks to corners with those of the sheet.
func taped(t *testing.T, a *siting.Assessment, all []readFeature) {
	t.Helper()
	marks, beds := map[string]orb.Point{}, map[string][]orb.Point{}
	for _, f := range ofKind(all, "mark") {
		marks[f.Properties["name"].(string)] = f.places(t, a.Frame)[0]
	}
	for _, f := range ofKind(all, "bed") {
		ring := f.places(t, a.Frame)
		slices.Reverse(ring)
		beds[f.Properties["name"].(string)] = ring
	}
	for _, b := range a.SettingOut.Beds {
		for i, c := range b.Corners {
			for _, tie := range c.Ties {
				assert.InDelta(t, tie.Distance, planar.Distance(marks[tie.Mark], beds[b.Name][i]), tapeError, "%s, %s from %s", b.Name, c.Name, tie.Mark)
			}
		}
	}
}

// onGrid is an assessment moved to a place of a map grid.
func onGrid(a *siting.Assessment, epsg int, by orb.Point) *siting.Assessment {
	moved := *a
	shift := func(p orb.Point) orb.Point { return orb.Point{p[0] + by[0], p[1] + by[1]} }
	moved.Frame.MapGrid, moved.Frame.Boundary = epsg, nil
	for _, p := range a.Frame.Boundary {
		moved.Frame.Boundary = append(moved.Frame.Boundary, shift(p))
	}
	moved.Beds = slices.Clone(a.Beds)
	for i := range moved.Beds {
		for j, c := range moved.Beds[i].Corners {
			moved.Beds[i].Corners[j][0], moved.Beds[i].Corners[j][1] = c[0]+by[0], c[1]+by[1]
		}
	}
	return &moved
}

// A plot on a map grid is told in longitude and latitude. The water tower at Caister
// stands, in the Ordnance Survey's guide to coordinate systems in Great Britain (from
// memory), at easting 651409.804, northing 313177.450 on the National Grid and at
// 52°39′28.8282″ N, 1°42′57.8663″ E on ETRS89, which is WGS84 to within a metre. The
// shift used here is good to 5 m.
func TestPlotOnAMapGrid(t *testing.T) {
	a := onGrid(assessed(t, "hillside"), 27700, orb.Point{651409.804, 313177.450})
	var b bytes.Buffer
	require.NoError(t, export.PointsGeoJSON(&b, "", a.Frame, []export.Point{{At: orb.Point{651409.804, 313177.450}}}))
	assert.NotContains(t, b.String(), `"crs"`)
	assert.Regexp(t, `brought over from the map grid EPSG:27700, by which the whole may lie up to \d+ m off`, b.String())
	var c struct {
		Features []struct {
			Geometry struct{ Coordinates orb.Point }
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &c))
	local := geodata.LocalMetres{Origin: orb.Point{1 + 42./60 + 57.8663/3600, 52 + 39./60 + 28.8282/3600}}
	off := local.From(c.Features[0].Geometry.Coordinates)
	assert.Less(t, math.Hypot(off[0], off[1]), 5.0)
	b.Reset()
	require.NoError(t, export.PointsGPX(&b, "", a.Frame, nil))
	assert.Contains(t, b.String(), "Places were brought over from the map grid EPSG:27700")
	a.Frame.MapGrid = 1
	assert.ErrorIs(t, export.PointsGPX(&b, "", a.Frame, nil), export.ErrNoPlace, "not a grid that is known")
}

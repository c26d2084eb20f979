package page

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
)

// keyedFeatures changes what is drawn.
type keyedFeatures struct {
	Revision string         `json:"revision"`
	Edits    []keyedFeature `json:"edits"`
}

// keyedFeature is one drawn thing to put, or to take out. Lengths are as people
// write them, bare numbers in the plot's own unit.
type keyedFeature struct {
	Kind geodata.Kind `json:"kind"`
	Name string       `json:"name"`
	// Was is the name that it had before, where that changes.
	Was       string          `json:"was"`
	Remove    bool            `json:"remove"`
	Corners   []keyedPlace    `json:"corners"`
	Closed    bool            `json:"closed"` // the last corner is joined to the first
	What      string          `json:"what"`
	Height    string          `json:"height"`
	Stem      string          `json:"stem"`
	Evergreen bool            `json:"evergreen"`
	Carries   geodata.Carrier `json:"carries"`
	Overhead  bool            `json:"overhead"`
	Located   string          `json:"located"`
	Depth     string          `json:"depth"`
}

// keyedPlace is a place by x and y, or by two tapes from marks that are drawn.
type keyedPlace struct {
	X    string `json:"x"`
	Y    string `json:"y"`
	From string `json:"from"`
	To   string `json:"to"`
	A    string `json:"a"`
	B    string `json:"b"`
	Side string `json:"side"`
}

func (s *Server) postFeatures(w http.ResponseWriter, r *http.Request) {
	var k keyedFeatures
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	s.answerChanged(w, func(dir string) error {
		plot, err := plotfolder.ReadSoFar(dir)
		if err != nil {
			return err
		}
		var edits []plotfolder.FeatureEdit
		for _, f := range k.Edits {
			made, err := editsOf(f, plot)
			if err != nil {
				return err
			}
			edits = append(edits, made...)
		}
		return plotfolder.EditFeatures(dir, k.Revision, edits)
	})
}

// editsOf are the changes of the files for one drawn thing.
func editsOf(k keyedFeature, plot *geodata.Plot) ([]plotfolder.FeatureEdit, error) {
	k.Name, k.Was = oneLine(k.Name), oneLine(k.Was)
	switch {
	case !slices.Contains(geodata.Kinds(), k.Kind):
		return nil, fieldError{"kind", fmt.Sprintf("%q is not a kind of feature", k.Kind)}
	case k.Name == "":
		return nil, fieldError{"name", "give it a name"}
	case k.Remove:
		return []plotfolder.FeatureEdit{{Kind: k.Kind, Name: k.Name}}, nil
	}
	l := lengths{bare: unitOf(plot.Site)}
	corners, err := cornersOf(k.Corners, plot, &l)
	if err != nil {
		return nil, err
	}
	edit := plotfolder.FeatureEdit{Kind: k.Kind, Name: k.Name}
	if k.Kind == geodata.BoundaryKind {
		if len(corners) < 3 {
			return nil, fieldError{"corners", "a boundary has three corners or more"}
		}
		edit.Boundary = corners
	} else {
		shape, err := shapeOf(k, corners)
		if err != nil {
			return nil, err
		}
		edit.Put = &geodata.Fixture{
			Kind: k.Kind, Name: k.Name, Shape: shape, What: oneLine(k.What), Evergreen: k.Evergreen,
			Carries: k.Carries, Overhead: k.Overhead, Located: oneLine(k.Located),
		}
		for _, m := range []struct {
			field, text string
			into        *float64
		}{{"height", k.Height, &edit.Put.TopHeight}, {"stem", k.Stem, &edit.Put.StemDiameter}, {"depth", k.Depth, &edit.Put.Depth}} {
			if v := l.optional(m.field, m.text); v != nil {
				*m.into = *v
			}
		}
	}
	if l.err != nil {
		return nil, l.err
	}
	edits := []plotfolder.FeatureEdit{edit}
	if k.Was != "" && k.Was != k.Name {
		edits = append([]plotfolder.FeatureEdit{{Kind: k.Kind, Name: k.Was}}, edits...)
	}
	return edits, nil
}

// cornersOf are the places of a shape.
func cornersOf(places []keyedPlace, plot *geodata.Plot, l *lengths) ([]orb.Point, error) {
	if len(places) == 0 {
		return nil, fieldError{"corners", "say where it is"}
	}
	var out []orb.Point
	for i, place := range places {
		at, err := placeAt(place, plot, l)
		if err != nil {
			return nil, err
		}
		if l.err != nil {
			if f, ok := l.err.(fieldError); ok {
				return nil, fieldError{fmt.Sprintf("corners.%d.%s", i, f.field), f.message}
			}
			return nil, l.err
		}
		out = append(out, at)
	}
	return out, nil
}

func placeAt(k keyedPlace, plot *geodata.Plot, l *lengths) (orb.Point, error) {
	if k.From == "" {
		return orb.Point{l.of("x", k.X), l.of("y", k.Y)}, nil
	}
	from, okFrom := markNamed(plot, k.From)
	to, okTo := markNamed(plot, k.To)
	if !okFrom || !okTo {
		return orb.Point{}, fieldError{"corners", "the two marks that it is taped from must be drawn first"}
	}
	side := levelbook.LeftSide
	if strings.EqualFold(k.Side, "right") {
		side = levelbook.RightSide
	}
	a, b := l.of("a", k.A), l.of("b", k.B)
	if l.err != nil {
		return orb.Point{}, nil
	}
	tie, err := levelbook.Trilaterate([]levelbook.Tape{{From: from, Length: a}, {From: to, Length: b}}, side)
	if err != nil {
		return orb.Point{}, fieldError{"corners", "the two tapes do not meet: " + err.Error()}
	}
	return tie.At, nil
}

func markNamed(plot *geodata.Plot, name string) (orb.Point, bool) {
	for _, f := range plot.OfKind(geodata.MarkKind) {
		if at, ok := f.Shape.(orb.Point); ok && f.Name == name {
			return at, true
		}
	}
	return orb.Point{}, false
}

// pointKinds are one point each.
var pointKinds = []geodata.Kind{geodata.TreeKind, geodata.GateKind, geodata.HeapKind, geodata.MarkKind}

// areaKinds are always areas.
var areaKinds = []geodata.Kind{geodata.NoGoKind, geodata.BedKind}

func shapeOf(k keyedFeature, corners []orb.Point) (orb.Geometry, error) {
	switch {
	case slices.Contains(pointKinds, k.Kind) || len(corners) == 1 && k.Kind == geodata.ObstacleKind:
		if len(corners) != 1 {
			return nil, fieldError{"corners", "this is one point"}
		}
		return corners[0], nil
	case slices.Contains(areaKinds, k.Kind) || k.Closed:
		if len(corners) < 3 {
			return nil, fieldError{"corners", "an area has three corners or more"}
		}
		return orb.Polygon{geodata.CloseRing(corners)}, nil
	case len(corners) < 2:
		return nil, fieldError{"corners", "give two points or more along it"}
	}
	return orb.LineString(corners), nil
}

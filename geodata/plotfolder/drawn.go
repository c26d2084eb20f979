package plotfolder

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// form is what a drawn shape is made of.
type form uint8

const (
	pointForm form = iota
	lineForm
	areaForm
)

// drawn is one shape as it was read, not yet in the plot's frame.
type drawn struct {
	geodata.Fixture          // without its Shape and Heights
	form            form     // what parts are
	parts           []corner // of a point or line, or the outer ring of an area
	holes           [][]corner
	lonLat          bool // places are degrees
	epsg            int  // map grid of its metres, as the file says; 0 when it says none
}

// corner is one position of a shape.
type corner struct {
	at  orb.Point
	z   float64 // NaN: none was given
	pos geodata.Pos
}

// called names a shape in a message.
func (d *drawn) called() string {
	if d.Name == "" {
		return "the " + string(d.Kind)
	}
	return fmt.Sprintf("the %s %q", d.Kind, d.Name)
}

// formOf is what a kind of feature is drawn as, with so many different corners
// that do or do not come back to the first. The advice is empty when the
// corners suit the kind.
func formOf(k geodata.Kind, what string, corners int, closed bool) (form, string) {
	switch k {
	case geodata.BoundaryKind, geodata.NoGoKind, geodata.BedKind:
		return areaForm, ""
	case geodata.TreeKind, geodata.GateKind, geodata.HeapKind, geodata.MarkKind:
		if corners > 1 {
			return pointForm, "give one point"
		}
		return pointForm, ""
	case geodata.BreakLineKind:
		return lineForm, atLeastTwo(corners)
	case geodata.ServiceKind, geodata.PathKind:
		if closed && corners > 2 {
			return areaForm, ""
		}
		return lineForm, atLeastTwo(corners)
	}
	return obstacleForm(what, corners, closed), ""
}

func atLeastTwo(corners int) string {
	if corners < 2 {
		return "give two points or more along it"
	}
	return ""
}

// linear are the obstacles that are lines unless their first corner is
// repeated as the last.
var linear = []string{"hedge", "fence", "wall", "retaining wall", "screen", "railing", "trellis"}

func obstacleForm(what string, corners int, closed bool) form {
	switch {
	case corners < 2:
		return pointForm
	case corners == 2 || slices.Contains(linear, what) && !closed:
		return lineForm
	}
	return areaForm
}

// cleaned leaves out corners that only repeat the one before them.
func cleaned(corners []corner) []corner {
	var out []corner
	for _, k := range corners {
		if len(out) == 0 || k.at != out[len(out)-1].at {
			out = append(out, k)
		}
	}
	return out
}

// cameBack tells whether the last corner repeats the first.
func cameBack(corners []corner) bool {
	return len(corners) > 1 && corners[0].at == corners[len(corners)-1].at
}

// shape makes the geometry of a drawn shape that is in the plot's frame. It
// tells what is wrong with a ring and then gives nil.
func (d *drawn) shape(c *collector) (orb.Geometry, []float64) {
	switch d.form {
	case pointForm:
		return d.parts[0].at, heightsOf(d.parts)
	case lineForm:
		return orb.LineString(pointsOf(d.parts)), heightsOf(d.parts)
	}
	var p orb.Polygon
	all := []corner{}
	for _, part := range append([][]corner{d.parts}, d.holes...) {
		if !cameBack(part) && len(part) > 0 {
			part = append(slices.Clone(part), part[0])
		}
		ring := orb.Ring(pointsOf(part))
		if faults := geodata.CheckRing(ring); len(faults) > 0 {
			d.ringProblem(faults[0], part, c)
			return nil, nil
		}
		p = append(p, ring)
		all = append(all, part...)
	}
	if !d.holesInside(p, c) {
		return nil, nil
	}
	return p, heightsOf(all)
}

func (d *drawn) ringProblem(f geodata.RingFault, part []corner, c *collector) {
	pos := d.Source
	if f.Corner < len(part) && f.Code != "too-few-corners" {
		pos = part[f.Corner].pos
	}
	c.problem(pos, string(d.Kind)+"-"+f.Code, "", d.called()+" "+f.Message, f.Want)
}

// holesInside refuses holes that are not wholly within the outer ring, or meet.
func (d *drawn) holesInside(p orb.Polygon, c *collector) bool {
	for i, hole := range p[1:] {
		bad := edgesMeet(p[0], hole) || !geodata.Inside(p[0], hole[0])
		for _, other := range p[1 : 1+i] {
			bad = bad || geodata.RingsMeet(other, hole)
		}
		if bad {
			c.problem(d.holes[i][0].pos, string(d.Kind)+"-hole", "", "a hole in "+d.called()+" meets its edge or another hole", "draw the hole wholly inside")
			return false
		}
	}
	return true
}

// edgesMeet tells whether the edges of two rings share a point.
func edgesMeet(a, b orb.Ring) bool {
	for i := 1; i < len(b); i++ {
		if geodata.EdgeMeets(a, b[i-1], b[i]) {
			return true
		}
	}
	return false
}

func pointsOf(corners []corner) []orb.Point {
	out := make([]orb.Point, len(corners))
	for i, k := range corners {
		out[i] = k.at
	}
	return out
}

// heightsOf is nil when no corner has a height.
func heightsOf(corners []corner) []float64 {
	out, any := make([]float64, len(corners)), false
	for i, k := range corners {
		out[i] = k.z
		any = any || !math.IsNaN(k.z)
	}
	if !any {
		return nil
	}
	return out
}

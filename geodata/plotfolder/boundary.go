package plotfolder

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// bedSlack is how far a drawn bed may be from a rectangle: the share by which
// opposite sides, or the diagonals, may differ. A default of ours.
const bedSlack = 0.05

// finishShapes checks the shapes in the plot's frame and makes fixtures and the
// boundary of them.
func finishShapes(p *geodata.Plot, shapes []drawn, c *collector) {
	var boundary *drawn
	names := map[string]geodata.Pos{}
	for i := range shapes {
		d := &shapes[i]
		shape, heights := d.shape(c)
		if shape == nil {
			continue
		}
		if d.Kind == geodata.BoundaryKind {
			if boundary != nil {
				c.problem(d.Source, "two-boundaries", "", "there is a second boundary; the first is at "+boundary.Source.String(), "keep one of them")
				continue
			}
			boundary = d
			p.Boundary, p.BoundaryDrawn = counterclockwise(shape.(orb.Polygon)), true
			continue
		}
		checkName(d, names, c)
		checkKind(d, shape, c)
		f := d.Fixture
		f.Shape, f.Heights = shape, heights
		p.Fixtures = append(p.Fixtures, f)
	}
}

// counterclockwise turns outer rings counterclockwise and holes clockwise.
func counterclockwise(p orb.Polygon) orb.Polygon {
	for i, ring := range p {
		if (geodata.SignedArea(ring) > 0) != (i == 0) {
			slices.Reverse(ring)
		}
	}
	return p
}

// checkName refuses two beds or two marks of one name, since results and tapes
// refer to them by it.
func checkName(d *drawn, names map[string]geodata.Pos, c *collector) {
	if d.Name == "" || d.Kind != geodata.BedKind && d.Kind != geodata.MarkKind {
		return
	}
	id := string(d.Kind) + " " + d.Name
	if first, twice := names[id]; twice {
		c.problem(d.Source, "name-twice", d.Name, "there is another "+string(d.Kind)+" of this name at "+first.String(), "give each its own name")
		return
	}
	names[id] = d.Source
}

// checkKind checks what one kind only must be.
func checkKind(d *drawn, shape orb.Geometry, c *collector) {
	switch d.Kind {
	case geodata.BedKind:
		if advice := notRectangle(shape.(orb.Polygon)); advice != "" {
			c.problem(d.Source, "bed-not-rectangle", "", d.called()+" is not a rectangle: "+advice, "give the four corners of a rectangle, one after the other")
		}
	case geodata.ServiceKind:
		if d.Carries == "" {
			d.Carries = geodata.OtherCarrier
			c.warn(d.Source, "carries-not-said", "", "what "+d.called()+" carries is not said: taken as unknown", "write one of "+strings.Join(carrierNames(), ", ")+" under carries")
		}
	}
}

// notRectangle says why a polygon is not a rectangle, within the slack.
func notRectangle(p orb.Polygon) string {
	if len(p) != 1 || len(p[0]) != 5 {
		return "it does not have four corners"
	}
	r := p[0]
	side := func(i, j int) float64 { return math.Hypot(r[i][0]-r[j][0], r[i][1]-r[j][1]) }
	differ := func(a, b float64) bool { return math.Abs(a-b) > bedSlack*max(a, b) }
	switch {
	case differ(side(0, 1), side(2, 3)) || differ(side(1, 2), side(3, 0)):
		return fmt.Sprintf("opposite sides are %.2f and %.2f m, %.2f and %.2f m", side(0, 1), side(2, 3), side(1, 2), side(3, 0))
	case differ(side(0, 2), side(1, 3)):
		return fmt.Sprintf("its diagonals are %.2f and %.2f m", side(0, 2), side(1, 3))
	}
	return ""
}

// settleBoundary takes the hull of the heights where no boundary was drawn, and
// otherwise checks that heights and boundary belong together.
func settleBoundary(p *geodata.Plot, name string, c *collector) {
	points := make([]orb.Point, len(p.Spots))
	for i, s := range p.Spots {
		points[i] = s.At
	}
	hull := geodata.Hull(points)
	if !p.BoundaryDrawn {
		p.Boundary = orb.Polygon{hull}
		c.note(geodata.Pos{File: name}, "boundary-assumed", "no boundary is drawn: the hull of the heights was taken")
		return
	}
	if !geodata.RingsMeet(p.Boundary[0], hull) {
		c.problem(geodata.Pos{File: name}, "no-overlap", "", "the heights and the boundary do not overlap",
			"give both in the same frame: metres from one corner, or longitude and latitude")
		return
	}
	outside := 0
	for _, at := range points {
		if !geodata.Inside(p.Boundary[0], at) {
			outside++
		}
	}
	if 2*outside > len(points) {
		c.warn(geodata.Pos{File: name}, "heights-outside", "", fmt.Sprintf("%d of %d heights lie outside the boundary", outside, len(points)), "check that both are in the same frame")
	}
}

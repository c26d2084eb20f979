package export

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// pegProperties are those of one peg.
type pegProperties struct {
	Kind string `json:"kind"`
	Bed  string `json:"bed"`
	Name string `json:"name"`
}

// beds appends each bed and then its pegs.
func (c *collection) beds(beds []siting.Bed) error {
	for i, b := range beds {
		id := fmt.Sprintf("bed-%d", i+1)
		if err := c.area(id, [][]orb.Point{corners(b)}, bedProperties(b)); err != nil {
			return err
		}
		if b.Pegs == nil {
			continue
		}
		for j, at := range b.Pegs.Positions {
			p := pegProperties{"peg", b.Name, fmt.Sprintf("%s peg %d", b.Name, j+1)}
			if err := c.point(fmt.Sprintf("%s-peg-%d", id, j+1), at, p); err != nil {
				return err
			}
		}
	}
	return nil
}

// corners are those of a bed in plan.
func corners(b siting.Bed) []orb.Point { return inPlan(b.Corners[:]) }

// bedProperties are the decision about a bed, in the words of the assessment. What
// is null does not apply or is not built.
func bedProperties(b siting.Bed) properties {
	var p properties
	p.add("kind", geodata.BedKind)
	p.add("name", b.Name)
	p.add("pinned", b.Pinned)
	p.add("may_be_built", b.Build != nil)
	p.add("edge", b.Edge)
	p.add("edge_firm", b.EdgeFirm)
	p.add("edge_because", b.EdgeBecause)
	p.number("length_m", b.Length, 3)
	p.number("width_m", b.Width, 3)
	p.number("long_side_bearing_degrees", b.LongSide, 1)
	p.band("fall_percent", &b.FallPercent, 1)
	p.add("fall_said", b.FallSaid)
	var ground [4]float64 // in the order of the corners
	for i, q := range b.Corners {
		ground[i] = rounded(q[2], 3)
	}
	p.add("ground_at_corners_m", ground)
	if b.Build != nil {
		p.number("least_fill_mm", b.Build.Fill, 0)
	}
	p.band("board_height_uphill_mm", b.BoardHeightUphill, 0)
	p.band("board_height_downhill_mm", b.BoardHeightDownhill, 0)
	p.band("sunken_depth_mm", b.SunkenDepth, 0)
	bedPegs(&p, b.Pegs)
	p.add("cautions", append([]string{}, b.Cautions...))
	return p
}

func bedPegs(p *properties, pegs *siting.Pegs) {
	if pegs == nil {
		pegs = &siting.Pegs{}
	}
	p.add("pegs", pegs.Count)
	if pegs.Count == 0 {
		return
	}
	p.number("peg_spacing_mm", pegs.Spacing, 0)
	p.number("peg_length_mm", pegs.Length, 0)
	p.number("peg_size_mm", pegs.Size, 0)
	p.band("peg_embedment_mm", &pegs.Embedment, 0)
}

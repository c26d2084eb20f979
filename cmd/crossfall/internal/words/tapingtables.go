package words

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/siting/setout"
)

// rowEnds are the only points that need two tapes.
func (w Words) rowEnds(s setout.Sheet, how Taping) SheetPart {
	p := SheetPart{Title: "Ends of the rows, by two tapes", Heads: []string{"End", "Tapes from", "On the", "Expected error", "Check"}}
	for _, r := range s.Rows {
		for i, c := range r.Ends {
			check := "no third mark"
			if k := r.Checks[i]; k != nil {
				check = w.tie(k.Tie, how) + " ± " + w.Small(k.Allowed)
			}
			p.Rows = append(p.Rows, append(w.pointRow(r.Name+", "+c.Name, c, how), check))
		}
	}
	return p
}

// pointRow is one point by two tapes.
func (w Words) pointRow(name string, c setout.Corner, how Taping) []string {
	if len(c.Ties) == 0 {
		return []string{name, "no sound pair of marks; lies at " + w.Place(c.At), "", ""}
	}
	return []string{name, w.ties(c.Ties, how), c.Side, w.ellipse(c.Ellipse)}
}

func (w Words) ellipse(e *setout.Ellipse) string {
	if e == nil {
		return unknown
	}
	return w.Small(e.Major95) + " by " + w.Small(e.Minor95)
}

// alongStrings are the beds along the string of each row.
func (w Words) alongStrings(s setout.Sheet, how Taping) SheetPart {
	p := SheetPart{Title: "Along each string, from its left end", Heads: []string{"Bed", "Row", "Uphill left at", "Uphill right at", "Off the string", "String in all"}}
	for _, r := range s.Rows {
		for _, b := range r.Beds {
			p.Rows = append(p.Rows, []string{
				b.Bed, r.Name, w.taped(b.From, how), w.taped(b.To, how), w.off(b.Off), w.taped(r.String, how) + " ± " + w.Small(r.Allowed),
			})
		}
	}
	return p
}

// off says how far the two uphill corners lie off the string.
func (w Words) off(mm [2]float64) string {
	one := func(v float64) string {
		switch {
		case math.Abs(v) < .5:
			return "on it"
		case v > 0:
			return w.Small(v) + " downhill"
		}
		return w.Small(-v) + " uphill"
	}
	left, right := one(mm[0]), one(mm[1])
	if left == right {
		return left
	}
	return "left " + left + ", right " + right
}

// squaring is how each bed is squared off from its uphill side.
func (w Words) squaring(s setout.Sheet, how Taping) SheetPart {
	p := SheetPart{Title: "Square off, by the diagonals", Heads: []string{"Bed", "Length", "Width", "Both diagonals", "Over the board tops", "Slide if " + w.Small(10) + " apart"}}
	if how.Slope {
		p.Heads = []string{"Bed", "Left side", "Right side", "Diagonals", "Over the board tops", "Slide if " + w.Small(10) + " off"}
	}
	for _, b := range s.Beds {
		over := "no boards"
		if len(b.Boards) > 0 {
			over = w.diagonals(b.OnFrame[0], b.OnFrame[1])
		}
		row := []string{b.Name, w.Tape(b.Length), w.Tape(b.Width), w.Tape(b.Diagonal)}
		if how.Slope {
			row = []string{b.Name, w.Tape(b.OnSlope.Left), w.Tape(b.OnSlope.Right), w.diagonals(b.OnSlope.FromLeft, b.OnSlope.FromRight)}
		}
		p.Rows = append(p.Rows, append(row, over, w.Small(b.Slide)))
	}
	return p
}

// diagonals are those from the uphill left and right corners, which differ where
// what they are taped over falls both ways.
func (w Words) diagonals(fromLeft, fromRight float64) string {
	left, right := w.Tape(fromLeft), w.Tape(fromRight)
	if left == right {
		return left + ", both"
	}
	return left + " from the uphill left, " + right + " from the uphill right"
}

// boardPegs are the pegs along every board.
func (w Words) boardPegs(s setout.Sheet) SheetPart {
	p := SheetPart{Title: "Pegs along the boards", Heads: []string{"Board", "Pegs from the frame's uphill left corner (end boards: from its uphill side)", "Pegs stand"}}
	for _, b := range s.Beds {
		last := ""
		for _, o := range b.Boards {
			if len(o.Pegs) == 0 {
				continue
			}
			at := make([]string, len(o.Pegs))
			for i, x := range o.Pegs {
				at[i] = w.Tape(x)
			}
			pegs := strings.Join(at, ", ")
			// The boards of steps in one line are measured along together.
			name, _, _ := strings.Cut(o.Name, ", step ")
			if name == last {
				p.Rows[len(p.Rows)-1][1] += ", " + pegs
				continue
			}
			last = name
			p.Rows = append(p.Rows, []string{b.Name + ", " + w.Prose(name), pegs, o.Side})
		}
	}
	return p
}

// boardTops are the heights of the boards against the datum peg.
func (w Words) boardTops(s setout.Sheet) SheetPart {
	p := SheetPart{Title: "Heights of the board tops, from the datum peg"}
	if s.Datum == nil {
		return p
	}
	p.Items = []Item{
		{"Datum peg", fmt.Sprintf("at the uphill left corner of %s, its top %s above the ground", s.Datum.Bed, w.Small(s.Datum.AboveGround))},
		{"Where the ground lies otherwise", "heights rest on the fitted ground, known against the datum peg to what the table says. Keep the differences within a bed, and raise or lower it as a whole until the low end of its downhill board is let in as it should be"},
	}
	p.Heads = []string{"Board", "Left or uphill end", "Right or downhill end", "Ground known to"}
	for _, b := range s.Beds {
		for _, o := range b.Boards {
			p.Rows = append(p.Rows, []string{b.Name + ", " + w.Prose(o.Name), w.overDatum(o.Tops[0]), w.overDatum(o.Tops[1]), "±" + w.Small(b.GroundKnownTo)})
		}
	}
	return p
}

// overDatum is a height against the datum peg.
func (w Words) overDatum(mm float64) string {
	size := w.Small(math.Abs(mm))
	switch {
	case size == w.Small(0):
		return "level with it"
	case mm > 0:
		return "rise " + size
	}
	return "fall " + size
}

// everyPoint is one bed with two tapes to each corner and peg.
func (w Words) everyPoint(b setout.Bed, how Taping) SheetPart {
	p := SheetPart{Title: "Every point of " + b.Name + ", by two tapes; pegs along the uphill board from the left, then along the next", Heads: []string{"Point", "Tapes from", "On the", "Expected error"}}
	for _, c := range slices.Concat(b.Corners, b.Pegs) {
		p.Rows = append(p.Rows, w.pointRow(c.Name, c, how))
	}
	return p
}

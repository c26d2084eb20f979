package siting

import (
	"strings"

	"crossfall/geodata"
	"crossfall/siting/setout"
)

// setOut records the figures of the setting out.
func (l *ledger) setOut(s setout.Sheet) {
	for _, r := range s.Rows {
		id := "setting-out." + bedID(r.Name)
		for _, c := range r.Ends {
			l.end(id+"."+bedID(c.Name), c)
		}
		l.add(id+".string", geodata.Exactly(r.String.Distance), "m", "plan distance between the two ends of the uphill line of the row",
			"geometry; what it may be off: the errors of both ends along the string and of one tape, 1.96 standard deviations",
			input("off, 95 times in 100", r.Allowed, "mm", "computed"), input("on the slope", r.String.OnSlope, "m", "computed"))
	}
	for _, b := range s.Beds {
		id := bedID(b.Name)
		l.add(id+".diagonal", geodata.Exactly(b.Diagonal), "m", "sqrt(length² + width²), held level", "Pythagoras",
			input("length", b.Length, "m", "given"), input("width", b.Width, "m", "given"),
			input("over the board tops, from the uphill left", b.OnFrame[0], "m", "computed"),
			input("over the board tops, from the uphill right", b.OnFrame[1], "m", "computed"))
		for _, o := range b.Boards {
			l.boardTop(id, b, o)
		}
	}
	if s.Datum != nil {
		l.add("setting-out.datum-peg", geodata.Exactly(s.Datum.AboveGround), "mm",
			"top of the frame at the uphill left corner of "+s.Datum.Bed+", the highest there is, over the fitted ground there", "default of ours")
	}
}

// end records the expected error of one end of a row.
func (l *ledger) end(id string, c setout.Corner) {
	if c.Ellipse == nil {
		return
	}
	inputs := []Input{
		input("long half axis, 95 times in 100", c.Ellipse.Major95, "mm", "computed"),
		input("short half axis, 95 times in 100", c.Ellipse.Minor95, "mm", "computed"),
		input("direction of the long axis, anticlockwise from east", c.Ellipse.Axis, "degrees", "computed"),
		input("error of setting and reading a tape", setout.ReadingError, "mm", "default"),
		input("error for each metre of tape", setout.StretchError, "mm", "default"),
	}
	for _, t := range c.Ties {
		inputs = append(inputs, input("tape from "+t.Mark+", level", t.Distance, "m", "computed"))
	}
	l.add(id, c.Error, "mm", "standard deviation of the position, the root of the trace of K diag(s²) K transposed, K the inverse of the matrix whose rows are the unit vectors along the two tapes; "+
		"s = sqrt(5² + (0.5 r)²) mm for r metres; axes from its eigenvalues, times 2.448 for 95 times in 100; the pair of marks with the least of it that meets at 30 to 150 degrees; band: half with care, twice in wind or grass",
		"first-order propagation of errors for two distances, plane surveying; errors of a tape: common practice; band: default of ours", inputs...)
}

// boardTop records how high one board stands.
func (l *ledger) boardTop(bed string, b setout.Bed, o setout.Board) {
	name := strings.NewReplacer(",", "", ".", "").Replace(o.Name)
	l.add(bed+".top."+bedID(name), geodata.Exactly(o.Tops[0]), "mm",
		"fitted ground at the board's low end, less the part let in, plus its height as bought; the top falls along the bed as the compost does; given against the datum peg at the left or uphill end",
		"geometry; shape of the top: default of ours",
		input("at the other end", o.Tops[1], "mm", "computed"),
		input("half the 95 % interval of the ground here against the datum peg", b.GroundKnownTo, "mm", "computed"))
}

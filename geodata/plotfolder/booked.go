package plotfolder

import (
	"bytes"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
)

// Booked is what the level book and the ties of a plot folder were reduced to,
// for showing how they close.
type Booked struct {
	Levels *levelbook.Reduction // nil without a level book
	Ties   *levelbook.Solution  // nil without ties
}

// Books reduces the level book and the ties of a plot folder. What does not
// close is shown as such and is no error here; Read refuses heights that come
// of it. The error is a geodata.Faults.
func Books(path string) (Booked, error) {
	var c, elsewhere collector // faults of the other files are told when the plot is read
	in := load(path, Options{MostBytes: geodata.MostFileBytes}, &elsewhere)
	var site geodata.Site
	if in.site != nil {
		site = readSite(in.site, &elsewhere)
	}
	var out Booked
	var levels []levelbook.StationLevel
	if in.levels != nil {
		r, ok := reduce(in.levels, site, &c)
		if !ok {
			return out, c.err()
		}
		out.Levels, levels = &r, r.Stations
	}
	if in.ties != nil {
		ties, faults := levelbook.ReadTies(bytes.NewReader(in.ties.data), in.ties.name, bareUnit(site))
		c.addAll(faults)
		if c.problems > 0 {
			return out, c.err()
		}
		marks := tapeMarks(readShapes(in, site, &elsewhere))
		turn, _ := compassTurn(site, marks, ties, &elsewhere)
		solution, found := ties.Solve(marks, levels, levelbook.TieOptions{Turn: turn})
		c.addAll(found)
		out.Ties = &solution
	}
	return out, c.err()
}

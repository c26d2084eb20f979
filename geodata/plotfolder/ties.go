package plotfolder

import (
	"bytes"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
)

// tiesFile holds tape ties, offsets, bearings and the readings of simple
// instruments.
const tiesFile = "ties.csv"

// readTies makes heights of the stations that ties give a place, with levels
// from the level book or from the ties themselves.
func readTies(f *file, with settings, shapes []drawn, c *collector) []geodata.SpotHeight {
	before := c.problems
	ties, faults := levelbook.ReadTies(bytes.NewReader(f.data), f.name, bareUnit(with.site))
	c.addAll(faults)
	if c.problems > before || with.bookFails {
		return nil
	}
	levels := with.levels.unused()
	marks := tapeMarks(shapes)
	turn, ok := compassTurn(with.site, marks, ties, c)
	if !ok {
		return nil
	}
	solution, found := ties.Solve(marks, levels, levelbook.TieOptions{Turn: turn})
	c.addAll(found)
	if c.problems > before {
		return nil
	}
	spots, joined := levelbook.Heights(levels, solution)
	c.addAll(joined)
	for _, s := range spots {
		with.levels.take(s.Name)
	}
	return spots
}

// tapeMarks are the drawn marks that can be taped from: those in local metres.
func tapeMarks(shapes []drawn) []levelbook.Mark {
	var out []levelbook.Mark
	for _, d := range shapes {
		if d.Kind != geodata.MarkKind || d.lonLat || len(d.parts) == 0 {
			continue
		}
		m := levelbook.Mark{Name: d.Name, At: d.parts[0].at}
		if z := d.parts[0].z; !math.IsNaN(z) {
			m.Height, m.HasHeight = z, true
		}
		out = append(out, m)
	}
	return out
}

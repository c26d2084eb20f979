package export

import (
	"encoding/csv"
	"io"

	"crossfall/geodata"
	"crossfall/siting"
)

// SetOut writes the points to be set out and the marks that they are taped from:
// places in the plot's frame, the two tapes that meet at each corner, held level,
// and how far off the point may come (one standard deviation).
func SetOut(w io.Writer, a *siting.Assessment, units geodata.Units) error {
	u := inUnits(units)
	rows := [][]string{{
		"bed", "point", u.long("x"), u.long("y"), "first mark", u.tape("tape from first mark"), "second mark", u.tape("tape from second mark"),
		"side of the line from first to second mark", u.small("expected error"),
	}}
	for _, m := range a.SettingOut.Marks {
		rows = append(rows, []string{"", m.Name, u.metres(m.At[0]), u.metres(m.At[1]), "", "", "", "", "", ""})
	}
	for _, b := range a.SettingOut.Beds {
		for _, c := range b.Corners {
			row := []string{b.Name, c.Name, u.metres(c.At[0]), u.metres(c.At[1]), "", "", "", "", c.Side, u.millimetres(c.Error.Value)}
			for i, tie := range c.Ties[:min(len(c.Ties), 2)] {
				row[4+2*i], row[5+2*i] = tie.Mark, u.taped(tie.Distance)
			}
			rows = append(rows, row)
		}
	}
	return csv.NewWriter(w).WriteAll(rows)
}

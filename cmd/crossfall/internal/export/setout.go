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

// Points are the marks, the corners of the beds that may be built, and their pegs:
// what is looked up on a phone or staked out with an instrument.
func Points(a *siting.Assessment) []Point {
	var out []Point
	for _, m := range a.SettingOut.Marks {
		out = append(out, Point{Name: m.Name, Kind: "mark", At: m.At, Height: unknown})
	}
	for _, b := range a.Beds {
		if b.Build == nil {
			continue
		}
		for i, q := range b.Corners {
			out = append(out, Point{
				Name: b.Name + " " + cornerNames[i], Kind: "bed corner", At: corners(b)[i], Height: q[2],
			})
		}
	}
	return out
}

// cornerNames go with the corners of a bed.
var cornerNames = [4]string{"uphill left", "uphill right", "downhill right", "downhill left"}

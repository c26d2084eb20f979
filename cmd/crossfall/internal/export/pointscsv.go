package export

import (
	"encoding/csv"
	"io"

	"crossfall/geodata"
)

// PointsCSV writes points as a table, x, y and z in metres or, with units "ft", in
// decimal feet. Heights that are not known are left empty. The table can be read
// back as a file of heights.
func PointsCSV(w io.Writer, points []Point, units geodata.Units) error {
	u := inUnits(units)
	rows := [][]string{{"name", "kind", u.long("x"), u.long("y"), u.long("z"), "note"}}
	for _, p := range points {
		rows = append(rows, []string{p.Name, p.Kind, u.metres(p.At[0]), u.metres(p.At[1]), u.metres(p.Height), p.Note})
	}
	return csv.NewWriter(w).WriteAll(rows)
}

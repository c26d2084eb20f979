package export

import (
	"encoding/csv"
	"io"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/setout"
)

// SetOut writes the points to be set out and the marks that they are taped from:
// places in the plot's frame with the height of the fitted ground, the two tapes
// that meet at each, held level, how far off it may come (one standard deviation),
// and where the uphill corners of beds lie along the string of their row.
func SetOut(w io.Writer, a *siting.Assessment, units geodata.Units) error {
	t := setOutTable{units: inUnits(units), sheet: a.SettingOut}
	t.head()
	for _, m := range t.sheet.Marks {
		kind := "mark"
		if m.Proposed {
			kind = "mark to be set"
		}
		t.point(kind, "", setout.Corner{Name: m.Name, At: m.At, Height: m.Height, Ties: m.Ties, Side: m.Side}, "", m.Where)
	}
	for _, r := range t.sheet.Rows {
		along := [2]string{t.units.taped(0), t.units.taped(r.String.Distance)}
		for i, end := range r.Ends {
			t.point("end of a row", r.Name, end, along[i], "")
		}
	}
	for _, b := range t.sheet.Beds {
		for i, c := range b.Corners {
			t.point("bed corner", b.Name, c, t.along(b.Name, i), "")
		}
		for _, p := range b.Pegs {
			t.point("peg", b.Name, p, "", "")
		}
	}
	if d := t.sheet.Datum; d != nil {
		t.point("datum peg", d.Bed, setout.Corner{Name: "datum peg", At: d.At, Height: d.Ground}, "", "its top stands "+t.units.said(d.AboveGround)+" above the ground")
	}
	return csv.NewWriter(w).WriteAll(t.rows)
}

// setOutTable gathers the rows of the table.
type setOutTable struct {
	units inUnits
	sheet setout.Sheet
	rows  [][]string
}

func (t *setOutTable) head() {
	u := t.units
	t.rows = [][]string{{
		"kind", "of", "point", u.long("x"), u.long("y"), u.long("z"),
		"first mark", u.tape("tape from first mark"), "second mark", u.tape("tape from second mark"),
		"side of the line from first to second mark", u.small("expected error, one standard deviation"), u.tape("along the string"), "note",
	}}
}

func (t *setOutTable) point(kind, of string, c setout.Corner, along, note string) {
	u := t.units
	row := []string{kind, of, c.Name, u.metres(c.At[0]), u.metres(c.At[1]), u.metres(c.Height), "", "", "", "", c.Side, "", along, note}
	for i, tie := range c.Ties[:min(len(c.Ties), 2)] {
		row[6+2*i], row[7+2*i] = tie.Mark, u.taped(tie.Distance)
	}
	if len(c.Ties) > 1 && c.Error.Value > 0 {
		row[11] = u.millimetres(c.Error.Value)
	}
	t.rows = append(t.rows, row)
}

// along is where a corner of a bed lies along the string of its row; empty for the
// downhill corners, which are squared off.
func (t *setOutTable) along(bed string, corner int) string {
	for _, r := range t.sheet.Rows {
		for _, b := range r.Beds {
			switch {
			case b.Bed != bed:
			case corner == 0:
				return t.units.taped(b.From.Distance)
			case corner == 1:
				return t.units.taped(b.To.Distance)
			}
		}
	}
	return ""
}

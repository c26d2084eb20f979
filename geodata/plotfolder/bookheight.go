package plotfolder

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
)

// BookHeight appends one reading to the heights of a plot folder, exactly once
// for each id, and makes heights.csv where there is none. again is true when the
// reading of this id had been booked before, whatever else it says now, or booked
// and taken back. The journal of ids is .crossfall/readings.jsonl.
//
// A row of which a crash left only the beginning is completed, and a torn last
// line of the journal is cut off, when the next reading is booked. The error
// wraps ErrColumns when the file's columns do not allow the reading, is
// geodata.Faults when no ground has such a height, else the system's; without one
// the reading is on disk.
func BookHeight(dir, id string, site geodata.Site, r NewReading) (again bool, err error) {
	return bookHeight(dir, id, site, r, xCol, yCol, zCol)
}

// BookPlace appends a station's name and place to the heights of a plot folder and
// leaves its height to the level book. Like BookHeight it does so once for each id.
func BookPlace(dir, id string, site geodata.Site, station string, x, y float64) (again bool, err error) {
	return bookHeight(dir, id, site, NewReading{Name: station, X: x, Y: y, Z: math.NaN()}, nameCol, xCol, yCol)
}

func bookHeight(dir, id string, site geodata.Site, r NewReading, needed ...role) (bool, error) {
	name, err := heightTableIn(dir)
	if err != nil {
		return false, err
	}
	return aim{
		dir: dir, id: id, file: name,
		header: fmt.Sprintf("name,x (%[1]s),y (%[1]s),z (%[1]s),note", unitWord(site)),
		row: func(table []byte) (string, error) {
			t, cols, err := appendColumns(name, table, site, needed...)
			if err != nil {
				return "", err
			}
			text := rowText(t.Delimiter, cols.cells(r, t.Commas == csvtable.CommaDecimal))
			return strings.TrimSuffix(text, "\n"), nil
		},
		check: func(_ []byte, c *collector) {
			at := geodata.Pos{File: name}
			for _, v := range []float64{r.X, r.Y} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					c.problem(at, "not-a-number", fmt.Sprint(v), "this is no place", "write a number, such as 1.25")
				}
			}
			if slices.Contains(needed, zCol) {
				checkHeight(r.Z, at, fmt.Sprintf("%g m", r.Z), c)
			}
		},
	}.book()
}

// heightTableIn is the name of the table of heights of a plot folder, heights.csv
// where it has no heights.
func heightTableIn(dir string) (string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return "", fmt.Errorf("look into %s: %s", filepath.Base(dir), reason(err))
	}
	var names []string
	for _, e := range entries {
		if !e.IsDir() && isHeights(strings.ToLower(e.Name())) {
			names = append(names, e.Name())
		}
	}
	switch {
	case len(names) == 0:
		return heightsStem + ".csv", nil
	case len(names) > 1:
		return "", fmt.Errorf("the folder has more than one file of heights: %s; keep one of them", strings.Join(names, ", "))
	case !isHeightTable(strings.ToLower(names[0])):
		return "", fmt.Errorf("readings are added to heights.csv, and the heights of this folder are in %s: %w", names[0], ErrColumns)
	}
	return names[0], nil
}

// isHeightTable tells whether a name is that of heights in a table.
func isHeightTable(lower string) bool {
	ext := filepath.Ext(lower)
	return isHeights(lower) && slices.Contains([]string{".csv", ".txt", ".tsv"}, ext)
}

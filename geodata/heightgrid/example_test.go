package heightgrid_test

import (
	"context"
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"crossfall/geodata/heightgrid"
)

// A hillside of 5 m cells that falls to the south; the heights of the part
// around a plot are wanted.
func ExampleOpen() {
	text := `ncols 4
nrows 3
xllcorner 400000
yllcorner 110000
cellsize 5
NODATA_value -9999
52.5 52.6 52.7 -9999
52.0 52.1 52.2 52.3
51.5 51.6 51.7 51.8
`
	file := strings.NewReader(text)
	source, err := heightgrid.Open(file, file.Size(), "hillside.asc")
	if err != nil {
		fmt.Println(err)
		return
	}
	info := source.Info()
	fmt.Println(info.Format, info.Cols, "by", info.Rows, "cells of", info.CellX, "m")

	plot := orb.Bound{Min: orb.Point{400006, 110006}, Max: orb.Point{400019, 110014}}
	r, err := source.Window(context.Background(), plot)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("from the south-west", r.Origin, r.Z, "missing", r.Missing)
	// Output:
	// text grid 4 by 3 cells of 5 m
	// from the south-west [400007.5 110007.5] [52.1 52.2 52.3 52.6 52.7 NaN] missing 1
}

// Faults say what is wrong, where, and what would be right.
func ExampleSource_All() {
	file := strings.NewReader("ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n10.1 10.2\n10.3 wall\n")
	source, err := heightgrid.Open(file, file.Size(), "plot.asc")
	if err == nil {
		_, err = source.All(context.Background())
	}
	fmt.Println(err)
	// Output:
	// plot.asc:7:6: a height is not a number (read "wall"); write a number, such as 52.76, or the mark for missing heights
}

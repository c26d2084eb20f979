package export

import (
	"encoding/csv"
	"io"
	"strconv"

	"crossfall/geodata"
	"crossfall/siting/takeoff"
)

// CutList writes how each board bought is cut: one row for each piece, in the order
// of cutting, then one for what is left of the board.
func CutList(w io.Writer, q takeoff.List, units geodata.Units) error {
	u := inUnits(units)
	rows := [][]string{{
		"board", u.small("board height"), u.small("board thickness"), u.tape("board length"), "piece", u.small("cut to"), "for",
	}}
	board := 0
	for _, line := range q.Boards {
		for _, cut := range line.Cuts {
			board++
			row := func(piece string, length float64, what string) {
				rows = append(rows, []string{
					strconv.Itoa(board), u.millimetres(line.Height), u.millimetres(line.Thickness), u.taped(line.Length / 1000),
					piece, u.millimetres(length), what,
				})
			}
			for i, p := range cut.Pieces {
				row(strconv.Itoa(i+1), p.Length, p.For)
			}
			if cut.Waste > 0 {
				row("", cut.Waste, "left over, after the saw cuts")
			}
		}
	}
	return csv.NewWriter(w).WriteAll(rows)
}

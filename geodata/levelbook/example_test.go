package levelbook_test

import (
	"fmt"
	"strings"

	"crossfall/geodata/levelbook"

	"github.com/paulmach/orb"
)

// A loop over a small plot that falls about 1 in 12: two set-ups, back on the
// doorstep it began on.
func ExampleBook_Reduce() {
	const levels = `station,back,inter,fore,level
doorstep,0.420,,,10.000
P1,,0.955,,
P2,,1.310,,
P3,1.900,,1.780,
P4,,1.985,,
doorstep,,,0.544,
`
	book, _ := levelbook.ReadLevels(strings.NewReader(levels), "levels.csv", 0)
	red, faults := book.Reduce(levelbook.Options{})
	section := red.Runs[0].Sections[0]
	fmt.Printf("misclosure %+.0f mm, allowed %.0f mm: %s\n", 1000*section.Misclosure, 1000*section.Allowance, section.Verdict)
	for _, s := range red.Stations {
		fmt.Printf("%-8s %6.3f m\n", s.Station, s.Level)
	}
	fmt.Println(len(faults), "faults")
	// Output:
	// misclosure -4 mm, allowed 7 mm: within the allowance
	// doorstep 10.000 m
	// P1        9.467 m
	// P2        9.112 m
	// P3        8.642 m
	// P4        8.559 m
	// 0 faults
}

// A peg taped from two gate posts 10 m apart, on the left of the line from the
// first to the second.
func ExampleTrilaterate() {
	tie, err := levelbook.Trilaterate([]levelbook.Tape{
		{From: orb.Point{0, 0}, Length: 8},
		{From: orb.Point{10, 0}, Length: 6},
	}, levelbook.LeftSide)
	fmt.Printf("%.2f east, %.2f north, error %.3f m, %v\n", tie.At[0], tie.At[1], tie.Sigma, err)

	_, err = levelbook.Trilaterate([]levelbook.Tape{
		{From: orb.Point{0, 0}, Length: 8},
		{From: orb.Point{10, 0}, Length: 2.2},
	}, levelbook.LeftSide)
	fmt.Println(err)
	// Output:
	// 6.40 east, 4.80 north, error 0.015 m, <nil>
	// the tapes meet at 152 degrees, which fixes the place too poorly; tape from marks where they meet at 30 to 150 degrees, or add a third tape
}

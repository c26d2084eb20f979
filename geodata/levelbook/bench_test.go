package levelbook_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata/levelbook"
)

// longBook has so many lines: a change point after every four intersights, and
// a foresight back on the first station.
func longBook(lines int) string {
	var b strings.Builder
	b.WriteString("station,back,inter,fore,level,distance,note\nBM,1.500,,,50.000,0,\n")
	for i := 2; i < lines; i++ {
		if i%5 == 0 {
			fmt.Fprintf(&b, "C%d,1.%03d,,1.%03d,,%d,\n", i, i%1000, i%1000, i)
		} else {
			fmt.Fprintf(&b, "P%d,,1.%03d,,,,by the fence\n", i, (7*i)%1000)
		}
	}
	fmt.Fprintf(&b, "BM,,,1.500,,%d,\n", lines)
	return b.String()
}

func BenchmarkBook(b *testing.B) {
	for _, lines := range []int{100, 10000} {
		text := longBook(lines)
		b.Run(fmt.Sprintf("lines=%d", lines), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				book, faults := levelbook.ReadLevels(strings.NewReader(text), "levels.csv", 0)
				if faults.Problems() > 0 {
					b.Fatal(faults)
				}
				if red, _ := book.Reduce(levelbook.Options{}); len(red.Runs) != 1 {
					b.Fatal("no run")
				}
			}
		})
	}
}

func BenchmarkTies(b *testing.B) {
	var text strings.Builder
	text.WriteString(tieHeader)
	for i := range 1000 {
		fmt.Fprintf(&text, "P%d,tie,shed,,8,,left\nP%d,tie,gate,,6,,\n", i, i)
	}
	b.Run("stations=1000", func(b *testing.B) {
		for b.Loop() {
			ties, _ := levelbook.ReadTies(strings.NewReader(text.String()), "ties.csv", 0)
			if sol, _ := ties.Solve(marks, nil, levelbook.TieOptions{}); len(sol.Places) != 1003 {
				b.Fatal("not solved")
			}
		}
	})
}

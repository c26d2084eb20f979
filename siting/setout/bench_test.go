package setout_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/setout"

	"github.com/paulmach/orb"
)

// rowsOf is a plot of so many beds in rows of six, with a shed and corners to
// propose canes at.
func rowsOf(n int) setout.Site {
	site := square()
	site.Height = func(p orb.Point) float64 { return 30 + .1*p[1] + .3*math.Sin(p[0]/5) }
	for i := range n {
		b := bed(fmt.Sprintf("bed %d", i+1), -2+4.2*float64(i%6), 18-1.9*float64(i/6), 3.6, 1.2)
		b.Pegs = b.Corners[:]
		site.Beds = append(site.Beds, b)
	}
	for i, c := range site.Boundary[:4] {
		site.Stays = append(site.Stays, setout.Spot{Name: site.CornerNames[i], Where: "at the " + site.CornerNames[i], At: c})
	}
	site.InTheWay = []orb.Geometry{orb.Polygon{{{1, 1}, {3, 1}, {3, 3}, {1, 3}, {1, 1}}}}
	return site
}

func BenchmarkMake(b *testing.B) {
	for _, n := range []int{12, 48} {
		site := rowsOf(n)
		b.Run(fmt.Sprintf("beds=%d,marks=0", n), func(b *testing.B) {
			for b.Loop() {
				setout.Make(site)
			}
		})
		site.Marks = []geodata.Fixture{mark("A", 0, 0), mark("B", 20, 0), mark("C", 0, 20), mark("D", 20, 20)}
		b.Run(fmt.Sprintf("beds=%d,marks=4", n), func(b *testing.B) {
			for b.Loop() {
				setout.Make(site)
			}
		})
	}
}

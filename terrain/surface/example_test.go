package surface_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/surface"
)

// A plot 10 m by 6 m falling about 1 in 12 to the south, read at six places.
func ExampleFitSpots() {
	spots := []geodata.SpotHeight{
		{Name: "a", At: orb.Point{0, 0}, Height: 10.00},
		{Name: "b", At: orb.Point{5, 0}, Height: 10.01},
		{Name: "c", At: orb.Point{10, 0}, Height: 10.00},
		{Name: "d", At: orb.Point{0, 6}, Height: 10.50},
		{Name: "e", At: orb.Point{5, 6}, Height: 10.49},
		{Name: "f", At: orb.Point{10, 6}, Height: 10.51},
	}
	fit, err := surface.FitSpots(spots, surface.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	g, cov := fit.Plane.Gradient, fit.Plane.Covariance
	fall, low, high := surface.FallInterval(g, cov, fit.Plane.Quantile)
	fmt.Println(fit.Why)
	fmt.Printf("1 in %.0f, between 1 in %.0f and 1 in %.0f\n", 1/fall, 1/high, 1/low)
	if from, to, ok := surface.BearingInterval(g, cov, fit.Plane.Quantile); ok {
		fmt.Printf("water leaves between %.0f and %.0f degrees\n", from.Degrees(), to.Degrees())
	}
	// Output:
	// a plane fits within your reading error
	// 1 in 12, between 1 in 12 and 1 in 13
	// water leaves between 179 and 182 degrees
}

func ExampleDrop() {
	spots := []geodata.SpotHeight{
		{At: orb.Point{0, 0}, Height: 10.00}, {At: orb.Point{10, 0}, Height: 10.00},
		{At: orb.Point{0, 6}, Height: 10.50}, {At: orb.Point{10, 6}, Height: 10.50},
	}
	fit, err := surface.FitSpots(spots, surface.Options{Sigma: 0.010})
	if err != nil {
		fmt.Println(err)
		return
	}
	// Across a bed 1.2 m wide, from its uphill side to its downhill side.
	fall, sigma := surface.Drop(fit, orb.Point{5, 3.6}, orb.Point{5, 2.4})
	fmt.Printf("%.0f mm, standard error %.0f mm\n", 1000*fall, 1000*sigma)
	// Output:
	// 100 mm, standard error 2 mm
}

// Is the fall under a bed over 1 in 12, where its edges would need boards?
func ExampleFallExceeds() {
	g := terrain.Gradient{North: 0.080}
	cov := [2][2]float64{{0.006 * 0.006, 0}, {0, 0.006 * 0.006}}
	fmt.Printf("%.0f %%\n", 100*surface.FallExceeds(g, cov, 1.0/12))
	// Output:
	// 30 %
}

// Which heights would tell whether a bed falls over 1 in 11 across?
func ExampleNext() {
	spots := []geodata.SpotHeight{
		{At: orb.Point{0, 0}, Height: 10.00}, {At: orb.Point{10, 0}, Height: 10.01},
		{At: orb.Point{0, 6}, Height: 10.53}, {At: orb.Point{10, 6}, Height: 10.55},
	}
	fit, err := surface.FitSpots(spots, surface.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	bed := surface.Question{
		Pairs:  []surface.Pair{{From: orb.Point{5, 3.6}, To: orb.Point{5, 2.4}}},
		Limits: []float64{1.0 / 11},
		Says:   "whether bed 1 is open-edged or boarded",
	}
	plot := orb.Polygon{{{-1, -1}, {11, -1}, {11, 7}, {-1, 7}, {-1, -1}}}
	next, err := surface.Next(fit, []surface.Question{bed}, plot, surface.NextOptions{Count: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range next {
		fmt.Printf("at %.1f east, %.1f north, by the %s, for %s\n", r.At[0], r.At[1], r.By, r.Settles[0])
	}
	// Output:
	// at 3.5 east, 6.5 north, by the error of the fall, for whether bed 1 is open-edged or boarded
	// at 0.0 east, 0.0 north, by the chance of deciding wrongly, for whether bed 1 is open-edged or boarded
}

// A wall across a plot: two slopes, and the step between them.
func ExampleFitPieces() {
	var spots []geodata.SpotHeight
	for _, x := range []float64{1, 5, 9} {
		for _, y := range []float64{1, 3, 5, 7} {
			z := 10 + 0.05*y
			if y > 4 {
				z += 0.60 // above the wall
			}
			spots = append(spots, geodata.SpotHeight{At: orb.Point{x, y}, Height: z})
		}
	}
	plot := orb.Polygon{{{0, 0}, {10, 0}, {10, 8}, {0, 8}, {0, 0}}}
	wall := orb.LineString{{0, 4}, {10, 4}}
	fit, err := surface.FitPieces(spots, []orb.LineString{wall}, plot, surface.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	below, _ := fit.HeightAt(orb.Point{5, 3.999})
	above, _ := fit.HeightAt(orb.Point{5, 4.001})
	fmt.Printf("%d parts, falling 1 in %.0f, %.2f m apart\n", len(fit.Pieces.Parts), 1/fit.Plane.Gradient.Fall(), above-below)
	// Output:
	// 2 parts, falling 1 in 20, 0.60 m apart
}

// How far may two heights beside a bed differ, among grounds that all agree
// with the survey?
func ExampleSimulate() {
	spots := []geodata.SpotHeight{
		{At: orb.Point{0, 0}, Height: 10.00}, {At: orb.Point{10, 0}, Height: 10.00},
		{At: orb.Point{0, 6}, Height: 10.50}, {At: orb.Point{10, 6}, Height: 10.50},
	}
	fit, err := surface.FitSpots(spots, surface.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	draws, err := surface.Simulate(fit, []orb.Point{{5, 3.6}, {5, 2.4}}, surface.DefaultDraws, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	over := 0
	for _, z := range draws.Heights {
		if z[0]-z[1] > 0.100 {
			over++
		}
	}
	fmt.Printf("the drop is over 100 mm in about half of the draws: %v\n", over > 80 && over < 120)
	// Output:
	// the drop is over 100 mm in about half of the draws: true
}

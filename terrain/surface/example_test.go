package surface_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"crossfall/geodata"
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

package soil_test

import (
	"fmt"

	"crossfall/siting/soil"
)

func ExampleConcentration() {
	e, _ := soil.Concentration(40, .08, 30, "turf")
	fmt.Printf("%.0f minutes (%.0f to %.0f)\n", e.Value/60, e.Low/60, e.High/60)
	// Output: 10 minutes (7 to 15)
}

package export_test

import (
	"os"

	"crossfall/cmd/crossfall/internal/export"

	"github.com/paulmach/orb"
)

func ExamplePointsCSV() {
	corner := export.Point{
		Name: "bed 1 uphill left", Kind: "bed corner", Note: "7.630 m from the gate post",
		At: orb.Point{13.838, 6.742}, Height: 29.415,
	}
	if err := export.PointsCSV(os.Stdout, []export.Point{corner}, "m"); err != nil {
		panic(err)
	}
	// Output:
	// name,kind,x (m),y (m),z (m),note
	// bed 1 uphill left,bed corner,13.838,6.742,29.415,7.630 m from the gate post
}

package plan_test

import (
	"bytes"
	"fmt"

	"crossfall/siting"
	"crossfall/siting/plan"

	"github.com/paulmach/orb"
)

func ExampleSVG() {
	a := &siting.Assessment{Name: "Allotment 7"}
	a.Frame.Boundary = []orb.Point{{0, 0}, {9, 0}, {9, 8}, {0, 8}}
	a.Ground.FallSaid = "level: under 0.8 %"
	var b bytes.Buffer
	if err := plan.SVG(&b, a, plan.Options{}); err != nil {
		fmt.Println(err)
		return
	}
	sheet, _ := plan.Lay(a, plan.Options{})
	fmt.Printf("%s, 1:%d\n", sheet.Paper, sheet.Scale)
	fmt.Println(bytes.Contains(b.Bytes(), []byte("Fall of the ground: level: under 0.8 %.")))
	// Output:
	// A4, 1:50
	// true
}

package frame_test

import (
	"fmt"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/siting/soil"
)

// A bed of 3.6 by 1.2 m along the contour of turf that falls 1 in 8.
func ExampleDecide() {
	ground, _ := soil.Named("soft wet turf topsoil")
	d := frame.Decide(frame.Case{
		Length: 3.6, Width: 1.2, Fill: 0.10,
		Slope: 0.125, Across: 0.125, Ground: ground, Turf: true,
	})
	fmt.Println(d.Class)
	fmt.Println("because", d.Because)
	fmt.Println("next:", d.NextEdge)
	fmt.Printf("%d pegs, %.1f m apart, %.0f mm into the ground (%.0f to %.0f)\n", d.Pegs.Count, d.Pegs.Spacing,
		1000*d.Pegs.Embedment.Value, 1000*d.Pegs.Embedment.Low, 1000*d.Pegs.Embedment.High)
	fmt.Printf("edges sunken %.0f mm, factor of safety in winter %.1f\n", 1000*d.Boards.Sunken, d.Pegs.FactorWinter)
	// Output:
	// boarded with sunken edges and pegs
	// because the ground falls 12.5 % (over 10 %)
	// next: stepped, if the fall under it were over 20 % (now 12.5 %)
	// 6 pegs, 1.8 m apart, 220 mm into the ground (200 to 240)
	// edges sunken 50 mm, factor of safety in winter 2.4
}

// How deep must a 50 mm peg go to hold twice 40 newtons pushing 50 mm above
// soft turf that falls 10 %?
func ExamplePeg_Depth() {
	ground, _ := soil.Named("soft wet turf topsoil")
	p := frame.Peg{Size: 0.05, Ground: ground, Slope: 0.10}
	fmt.Printf("%.0f mm\n", 1000*p.Depth(2*0.040, 0.05))
	// Output: 171 mm
}

func BenchmarkDecide(b *testing.B) {
	loose, _ := soil.Named("loose sandy soil")
	for _, c := range []struct {
		name string
		c    frame.Case
	}{
		{"open-edged", usual(.04, 0)},
		{"sunken on turf", usual(.12, 0)},
		{"stepped on turf", usual(.16, .16)},
		{"300 mm on sand, costliest of the sweep", frame.Case{
			Length: 3.6, Width: 1.2, Fill: .30, Across: .06, Along: .035, Ground: loose, Turf: true}},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				frame.Decide(c.c)
			}
		})
	}
}

func BenchmarkClassOf(b *testing.B) {
	c := usual(.16, .16)
	for b.Loop() {
		frame.ClassOf(c)
	}
}

// What a bed of 145 mm on ground that falls 3 % depends on.
func ExampleSensitive() {
	c := frame.Case{Length: 3.6, Width: 1.2, Fill: 0.145, Across: 0.03, Turf: true}
	s := frame.Sensitive(c, geodata.Estimate{Value: 0.001, Low: 0.0006, High: 0.0017})
	fmt.Println(s.Mildest, "to", s.Gravest)
	fmt.Println("most depends on the", s.Matters)
	// Output:
	// open-edged to boarded
	// most depends on the depth of compost
}

// The ways to edge a bed across a fall of 6 %.
func ExampleAlternatives() {
	for _, a := range frame.Alternatives(frame.Case{Length: 3.6, Width: 1.2, Fill: 0.15, Across: 0.06, Turf: true}) {
		fmt.Printf("%s: %q\n", a.Class, a.Against)
	}
	// Output:
	// open-edged: "the ground falls 6 % (over 5 %) across the bed"
	// boarded: ""
	// boarded with sunken edges and pegs: "not needed"
	// stepped: "not needed"
}

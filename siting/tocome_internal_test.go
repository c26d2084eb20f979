package siting

import (
	"context"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
)

// BenchmarkToCome is a tree of 6 m still to come on the hillside, four beds and what
// is drawn there, 1,800 places half a metre apart, with the beds and the three ends
// of the bands shared by all cores.
func BenchmarkToCome(b *testing.B) {
	p, err := plotfolder.Read("../testdata/hillside", plotfolder.Options{})
	if err != nil {
		b.Fatal(err)
	}
	height := 6.0
	p.Site.ToCome = []geodata.TallThing{{What: "tree", Height: &height}}
	a, err := Assess(context.Background(), p, Options{})
	if err != nil {
		b.Fatal(err)
	}
	brief, _ := settle(p)
	k, err := learn(context.Background(), p, brief, func(int) {})
	if err != nil {
		b.Fatal(err)
	}
	j := k.judge
	j.plot = p
	decided, _, err := j.place(context.Background())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := j.toCome(context.Background(), k.light, a.Beds, decided); err != nil {
			b.Fatal(err)
		}
	}
}

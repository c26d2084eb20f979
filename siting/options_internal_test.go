package siting

import (
	"context"
	"testing"

	"crossfall/geodata/plotfolder"
)

// BenchmarkEdgesOfABed is one bed on fitted ground with its edge, sensitivities,
// the three other edges with their boards cut and priced, and its section.
func BenchmarkEdgesOfABed(b *testing.B) {
	p, err := plotfolder.Read("../testdata/hillside-pinned", plotfolder.Options{})
	if err != nil {
		b.Fatal(err)
	}
	brief, _ := settle(p)
	k, err := learn(context.Background(), p, brief, func(int) {})
	if err != nil {
		b.Fatal(err)
	}
	j := k.judge
	all, _, err := j.place(context.Background())
	if err != nil {
		b.Fatal(err)
	}
	for _, d := range all {
		if d.refused != "" {
			continue
		}
		b.Run(string(d.chosen.Class), func(b *testing.B) {
			for b.Loop() {
				j.sensitivity(d)
				edgeOptions(j, d)
				j.section(d)
			}
		})
	}
}

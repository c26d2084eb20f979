package layout

import (
	"context"
	"testing"
)

// BenchmarkRowProgramme is the best rows of 918 places in four directions.
func BenchmarkRowProgramme(b *testing.B) {
	f := sixSided(b, 0.8)
	b.Run("candidates=900", func(b *testing.B) {
		for b.Loop() {
			rows, err := f.allRows(context.Background(), demands{}, nil, 6)
			if err != nil || rows.value[6] < 45.6 {
				b.Fatal(err, rows.value)
			}
		}
	})
}

// BenchmarkPolish is the annealing alone on the same places, and Bound the prices.
func BenchmarkPolish(b *testing.B) {
	f := sixSided(b, 0.8)
	b.Run("candidates=900", func(b *testing.B) {
		for b.Loop() {
			chosen, err := f.polish(context.Background(), make([][]int, polishRuns), nil, 6, polishMoves)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(100*f.score(chosen)/45.6075, "percent-of-optimum")
		}
	})
}

func BenchmarkBound(b *testing.B) {
	f := sixSided(b, 0)
	b.Run("candidates=900", func(b *testing.B) {
		for b.Loop() {
			limits := bounds{f: f, steps: boundSteps}
			v, err := limits.score(context.Background(), 6, 48.0782)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(100*(v/48.0782-1), "gap-percent")
		}
	})
}

package export_test

import (
	"io"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"

	"github.com/stretchr/testify/require"
)

// The files of the example plot: four beds, 39 heights, 11 contours.
func BenchmarkFiles(b *testing.B) {
	a := assessed(b, "hillside")
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{"geojson", func(w io.Writer) error { return export.GeoJSON(w, a) }},
		{"dxf", func(w io.Writer) error { return export.DXF(w, a) }},
		{"setout", func(w io.Writer) error { return export.SetOut(w, a, geodata.Metric) }},
		{"json", func(w io.Writer) error { return export.JSON(w, a) }},
		{"all", func(io.Writer) error { _, _, err := export.Set(a, export.Made{Units: geodata.Metric}); return err }},
	} {
		b.Run("plot=hillside/file="+f.name, func(b *testing.B) {
			for b.Loop() {
				require.NoError(b, f.write(io.Discard))
			}
		})
	}
}

package page_test

import (
	"fmt"
	"math"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkMove is the time the server takes from a bed that was moved to the
// figures that follow: 12 beds, 60 heights on uneven ground.
func BenchmarkMove(b *testing.B) {
	s := serve(b, options(hills(b, 60)))
	beds := make([]any, 12)
	for i := range beds {
		beds[i] = bed(fmt.Sprintf("bed %d", i+1), 4+4.5*float64(i%3), 3+4*float64(i/3), 95)
	}
	trial := map[string]any{"beds": beds}
	require.Equal(b, http.StatusOK, s.post("/api/try", trial, nil), "the ground is fitted once")
	for i := 0; b.Loop(); i++ {
		beds[5] = bed("bed 6", 8.5+0.1*float64(i%10), 11, 95)
		s.post("/api/try", trial, nil)
	}
}

// hills writes a plot of 18 by 20 m with so many heights on a bent slope.
func hills(b *testing.B, heights int) string {
	b.Helper()
	dir := b.TempDir()
	var t strings.Builder
	t.WriteString("name,x,y,z\n")
	for i := range heights {
		x := 0.5 + 17*math.Mod(0.618034*float64(i), 1)
		y := 0.5 + 19*float64(i)/float64(heights)
		fmt.Fprintf(&t, "h%d,%.2f,%.2f,%.3f\n", i, x, y, 30-0.09*y+0.2*math.Sin(x/3)*math.Cos(y/4)+0.01*math.Sin(37*float64(i)))
	}
	require.NoError(b, os.WriteFile(filepath.Join(dir, "heights.csv"), []byte(t.String()), 0o644))
	require.NoError(b, os.WriteFile(filepath.Join(dir, "site.toml"), []byte("name = \"Hills\"\ncoordinates = \"local\"\nunits = \"m\"\n\n[place]\nlatitude = 52.0\n"), 0o644))
	return dir
}

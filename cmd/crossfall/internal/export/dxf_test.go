package export_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/geodata/dxf"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPointsDXF(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, export.PointsDXF(&b, three))
	assert.Contains(t, b.String(), "\nk\xe1men\n", "the code page that the header names")
	assert.Contains(t, b.String(), "\nANSI_1252\n")
	read, faults := dxf.Read(b.Bytes(), "points.dxf", dxf.Options{Unit: geodata.Metre, Layers: []string{"mark", "bed-corner"}})
	require.NoError(t, faults.Err())
	require.Len(t, read.Points, 3)
	for i, p := range read.Points {
		assert.InDelta(t, three[i].At[0], p.X, 1e-4)
		assert.InDelta(t, three[i].At[1], p.Y, 1e-4)
	}
	assert.InDelta(t, 28.123, read.Points[0].Height, 1e-4)
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	assert.Zero(t, len(lines)%2, "codes and values by pairs")
	assert.Equal(t, "EOF", lines[len(lines)-1])
}

// places of a layer as the project's own reader of drawings finds them.
func placesOn(t *testing.T, drawing []byte, layer string) []geodata.RawPoint {
	t.Helper()
	read, faults := dxf.Read(drawing, "plan.dxf", dxf.Options{Unit: geodata.Metre, Layers: []string{layer}})
	require.NoError(t, faults.Err(), layer)
	return read.Points
}

func TestPlanDXF(t *testing.T) {
	for _, plot := range plots {
		t.Run(plot, func(t *testing.T) {
			a := assessed(t, plot)
			var b, again bytes.Buffer
			require.NoError(t, export.DXF(&b, a))
			require.NoError(t, export.DXF(&again, a))
			require.Equal(t, b.String(), again.String(), "the same bytes")
			heights := placesOn(t, b.Bytes(), "spot-heights")
			require.Len(t, heights, len(a.Ground.Heights))
			for i, h := range a.Ground.Heights {
				assert.InDelta(t, h.At[0], heights[i].X, 1e-4)
				assert.InDelta(t, h.At[1], heights[i].Y, 1e-4)
				assert.InDelta(t, h.Height, heights[i].Height, 1e-4)
			}
			built := 0
			for _, bed := range a.Beds {
				if bed.Build == nil {
					continue
				}
				at := placesOn(t, b.Bytes(), "bed-corners")[4*built:]
				built++
				for i, c := range bed.Corners {
					assert.InDelta(t, c[0], at[i].X, 1e-4)
					assert.InDelta(t, c[1], at[i].Y, 1e-4)
					assert.InDelta(t, c[2], at[i].Height, 1e-4)
				}
			}
		})
	}
}

// The contours of a plot in feet are round in feet, and labelled so; those of a plot
// in metres say nothing of feet.
func TestContoursInFeet(t *testing.T) {
	for plot, feet := range map[string]bool{"claybank": true, "hillside": false} {
		a := assessed(t, plot)
		var b bytes.Buffer
		require.NoError(t, export.DXF(&b, a))
		contours := ofKind(readResult(t, a), "contour")
		require.NotEmpty(t, contours)
		for _, c := range contours {
			level, ok := c.Properties["height_ft"].(float64)
			require.Equal(t, feet, ok, plot)
			if !feet {
				continue
			}
			assert.InDelta(t, 0, math.Mod(level, 1), 1e-9, "12 ft of relief take contours of a foot")
			assert.InDelta(t, level*0.3048, c.Properties["height_m"], 5e-5)
			assert.Contains(t, b.String(), fmt.Sprintf("\n%.2f ft\n", level))
		}
	}
}

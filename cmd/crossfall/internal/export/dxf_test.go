package export_test

import (
	"bytes"
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

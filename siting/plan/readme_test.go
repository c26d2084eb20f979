package plan_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"

	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The picture in the README is what the program draws.
func TestPictureOfTheExamplePlotIsCurrent(t *testing.T) {
	dir := filepath.Join("..", "..", "testdata", "hillside")
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	a, err := siting.Assess(context.Background(), p, siting.Options{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, plan.SVG(&b, a, plan.Options{}))
	file := filepath.Join(dir, "plan.svg")
	if *update {
		require.NoError(t, os.WriteFile(file, b.Bytes(), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(want, b.Bytes()), "run go test ./siting/plan -update and look at the picture")
}

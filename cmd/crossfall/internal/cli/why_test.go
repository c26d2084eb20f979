package cli_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every figure can be found by its id: all are named on request, those of one
// bed where an id is wrong, and the nearest where the bed is wrong too.
func TestWhyNamesFigures(t *testing.T) {
	plot := filepath.Join("..", "..", "..", "..", "testdata", "hillside")
	r := run(t, "", "assess", plot, "--why", "list")
	require.Equal(t, 0, r.code, r.err)
	ids := strings.Fields(r.out)
	assert.Contains(t, ids, "bed-4.pegs.embedment")
	assert.Greater(t, len(ids), 100)

	r = run(t, "", "assess", plot, "--why", "bed-2.peg")
	assert.Equal(t, 2, r.code)
	assert.Empty(t, r.out)
	assert.Contains(t, r.err, "bed-2.pegs.embedment")
	assert.NotContains(t, r.err, "bed-1.")

	r = run(t, "", "assess", plot, "--why", "grond.fall")
	assert.Contains(t, r.err, "there are ground.fall, ")
}

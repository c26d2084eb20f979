package siting

import (
	"context"
	"testing"

	"crossfall/geodata/plotfolder"
	"crossfall/siting/frame"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// At every corner of every step the boards stand over the compost as it will
// lie: nothing is levelled so low that it would run over them.
func TestBoardTopsStandOverTheCompost(t *testing.T) {
	p, err := plotfolder.Read("../testdata/hillside-pinned", plotfolder.Options{})
	require.NoError(t, err)
	brief, _ := settle(p)
	k, err := learn(context.Background(), p, brief, func(int) {})
	require.NoError(t, err)
	j := k.judge
	j.plot = p
	decided, _, err := j.place(context.Background())
	require.NoError(t, err)
	steps := 0
	for _, d := range decided {
		if d.chosen.Class == frame.DoNotBuild || d.chosen.Boards == nil {
			continue
		}
		top := j.tops(d)
		across, along := max(1, d.chosen.BaysAcross), max(1, d.chosen.BaysAlong)
		require.Len(t, top.down, across)
		for i, b := range d.fill.Bays {
			steps++
			row, at := across-1-i/along, i%along
			for end, right := range []float64{b.Left, b.Right} {
				up, down := top.up[row][at][end], top.down[row][at][end]
				assert.GreaterOrEqual(t, up-b.TopAt(right, b.Top), .01, "%s, step %d", d.bed.Name, i+1)
				assert.GreaterOrEqual(t, down-b.TopAt(right, b.Bottom), .01, "%s, step %d", d.bed.Name, i+1)
			}
		}
	}
	assert.Greater(t, steps, 3)
}

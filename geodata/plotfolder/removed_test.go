package plotfolder_test

import (
	"errors"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A file that goes away between looking into the folder and opening it is named;
// nothing of the plot is then taken.
func TestFileThatIsGoneIsNamed(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "heights.csv"), []byte("name,x,y,z\na,0,0,1\nb,9,0,1\nc,0,9,2\n"), 0o644))
	gone := filepath.Join(dir, "site.toml")
	if err := os.Symlink(filepath.Join(dir, "nowhere"), gone); err != nil {
		t.Skip("no links here: ", err)
	}
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	var faults geodata.Faults
	require.True(t, errors.As(err, &faults) && p == nil)
	require.Equal(t, "cannot-read", faults[0].Code)
	assert.Equal(t, "site.toml", faults[0].Pos.File)
	assert.Contains(t, faults[0].Message, "no such file")
}

// While heights are taken away and put back, each reading gives the whole plot or
// a fault.
func TestFileRemovedWhileReading(t *testing.T) {
	dir := t.TempDir()
	file, aside := filepath.Join(dir, "heights.csv"), filepath.Join(dir, "aside")
	require.NoError(t, os.WriteFile(file, []byte("name,x,y,z\na,0,0,1\nb,9,0,1\nc,0,9,2\nd,9,9,2\n"), 0o644))
	var stop atomic.Bool
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		for !stop.Load() {
			_ = os.Rename(file, aside)
			_ = os.Rename(aside, file)
		}
	}()
	for range 300 {
		p, err := plotfolder.Read(dir, plotfolder.Options{})
		var faults geodata.Faults
		if err == nil {
			assert.Len(t, p.Spots, 4)
		} else if assert.True(t, errors.As(err, &faults), "%v", err) {
			assert.Contains(t, []string{"no-heights", "cannot-read"}, faults[0].Code)
		}
	}
	stop.Store(true)
	<-ended
}

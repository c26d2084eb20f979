package plotfolder_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestStagedFilesAppearTogetherOrNotAtAll(t *testing.T) {
	dir := t.TempDir()
	first := filepath.Join(dir, "a.html")
	var s plotfolder.Staged
	require.NoError(t, s.Add(first, []byte("a")))
	assert.NoFileExists(t, first)
	require.Error(t, s.Add(filepath.Join(dir, "none", "b.svg"), []byte("b")))
	s.Discard()
	assert.Empty(t, names(t, dir))

	require.NoError(t, s.Add(first, []byte("a")))
	require.NoError(t, s.Commit())
	s.Discard()
	assert.Equal(t, "a", content(t, first))
	assert.Equal(t, []string{"a.html"}, names(t, dir))
}

// The last file is lost between staging and renaming: what was put in place before
// it goes back, and what was taken away stands again.
func TestStagedFilesGoBack(t *testing.T) {
	dir := folder(t, files{"a": "old a", "b": "old b"})
	s := plotfolder.Staged{Before: filepath.Join(dir, "before")}
	require.NoError(t, s.Add(filepath.Join(dir, "a"), []byte("new a")))
	require.NoError(t, s.Add(filepath.Join(dir, "new"), []byte("new")))
	s.TakeAway(filepath.Join(dir, "b"))
	staged := names(t, dir)
	require.NoError(t, s.Add(filepath.Join(dir, "c"), []byte("new c")))
	for _, name := range names(t, dir) {
		if !slices.Contains(staged, name) {
			require.NoError(t, os.Remove(filepath.Join(dir, name)))
		}
	}
	require.ErrorContains(t, s.Commit(), "cannot write "+filepath.Join(dir, "c"))
	assert.Equal(t, "old a", content(t, filepath.Join(dir, "a")))
	assert.Equal(t, "old b", content(t, filepath.Join(dir, "b")))
	assert.Equal(t, []string{"a", "b"}, names(t, dir))
}

func TestStagedKeepsOneVersionBefore(t *testing.T) {
	dir := folder(t, files{"a": "1", "b": "1", "theirs": "x"})
	before := filepath.Join(dir, "before")
	write := func(text string, take ...string) {
		s := plotfolder.Staged{Before: before}
		defer s.Discard()
		require.NoError(t, s.Add(filepath.Join(dir, "a"), []byte(text)))
		if len(take) == 0 {
			require.NoError(t, s.Add(filepath.Join(dir, "b"), []byte(text)))
		} else {
			s.TakeAway(filepath.Join(dir, "b"))
		}
		require.NoError(t, s.Commit())
	}
	write("2", "b")
	assert.Equal(t, "2", content(t, filepath.Join(dir, "a")))
	assert.NoFileExists(t, filepath.Join(dir, "b"))
	assert.Equal(t, "1", content(t, filepath.Join(before, "a")))
	assert.Equal(t, "1", content(t, filepath.Join(before, "b")))
	write("3")
	assert.Equal(t, "2", content(t, filepath.Join(before, "a")))
	assert.Equal(t, []string{"a"}, names(t, before), "b did not stand in that version")
	assert.Equal(t, []string{"a", "b", "before", "theirs"}, names(t, dir))
}

func TestStagedRefusesLinks(t *testing.T) {
	dir := folder(t, files{"real": "1"})
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink(filepath.Join(dir, "real"), link))
	var s plotfolder.Staged
	require.ErrorIs(t, s.Add(link, []byte("2")), plotfolder.ErrLink)
	assert.Equal(t, "1", content(t, filepath.Join(dir, "real")))
}

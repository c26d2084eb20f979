package page_test

import (
	"encoding/csv"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// booked is the answer to a reading.
type booked struct {
	Booked, Again bool
	Name          string
	Doubt         *struct {
		Said  string
		Slips []struct{ Text, Said string }
	}
	Code, Field, Message string
}

func reading(id, x, y, z string) map[string]any {
	return map[string]any{"id": id, "name": "", "x": x, "y": y, "z": z, "note": "", "keep": false}
}

func TestReadingIsBookedOnce(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	rows := strings.Count(s.file("heights.csv"), "\n")
	for again := range 3 {
		var b booked
		require.Equal(t, http.StatusOK, s.post("/api/readings", reading("reading-of-the-gate", "17", "13", "29.0"), &b))
		if b.Doubt != nil { // the hillside knows better: it is right all the same
			body := reading("reading-of-the-gate", "17", "13", "29.0")
			body["keep"] = true
			require.Equal(t, http.StatusOK, s.post("/api/readings", body, &b))
		}
		assert.True(t, b.Booked)
		assert.Equal(t, again > 0, b.Again)
	}
	assert.Equal(t, rows+1, strings.Count(s.file("heights.csv"), "\n"))
}

func TestDoubtfulReadingIsChallenged(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := s.file("heights.csv")
	var b booked
	require.Equal(t, http.StatusOK, s.post("/api/readings", reading("a-slip-of-a-digit", "8.3", "11.2", "27.25"), &b)) // the ground lies near 29.2
	assert.False(t, b.Booked)
	require.NotNil(t, b.Doubt)
	assert.Contains(t, b.Doubt.Said, "below what its neighbours say")
	assert.Equal(t, before, s.file("heights.csv"), "it waits for a word")

	body := reading("a-slip-of-a-digit", "8.3", "11.2", "27.25")
	body["keep"] = true
	require.Equal(t, http.StatusOK, s.post("/api/readings", body, &b))
	assert.True(t, b.Booked)
	assert.Contains(t, s.file("heights.csv"), "27.25")
}

func TestReadingsThatAreNotUnderstood(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := s.revision()
	for field, body := range map[string]map[string]any{
		"x": reading("aaaaaaaa", "three", "1", "29"), "y": reading("aaaaaaab", "1", "", "29"), "z": reading("aaaaaaac", "1", "1", "4-6"), "id": reading("a", "1", "1", "29"),
	} {
		var b booked
		assert.Equal(t, http.StatusUnprocessableEntity, s.post("/api/readings", body, &b), field)
		assert.Equal(t, field, b.Field)
		assert.NotEmpty(t, b.Message)
	}
	assert.Equal(t, before, s.revision())
}

func TestReadingTakenBack(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := s.file("heights.csv")
	body := reading("taken-back-again", "3", "3", "29.9")
	body["keep"] = true
	var b booked
	require.Equal(t, http.StatusOK, s.post("/api/readings", body, &b))
	require.NotEqual(t, before, s.file("heights.csv"))
	require.Equal(t, http.StatusOK, s.post("/api/undo", map[string]string{"id": "taken-back-again"}, nil))
	assert.Equal(t, before, s.file("heights.csv"))
	assert.Equal(t, http.StatusConflict, s.post("/api/undo", map[string]string{"id": "never-was-keyed"}, nil))
}

// TestReadingsFromManyDevices sends the same readings from several at once: each
// stands in the file once.
func TestReadingsFromManyDevices(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := len(heightRows(t, s))
	var all sync.WaitGroup
	for device := range 4 {
		all.Go(func() {
			for i := range 10 {
				body := reading(fmt.Sprintf("reading-%02d-shared", i), fmt.Sprint(2+i), "5", fmt.Sprintf("29.%d", 70-i))
				body["keep"] = true
				body["note"] = fmt.Sprintf("device %d", device)
				var b booked
				assert.Equal(t, http.StatusOK, s.post("/api/readings", body, &b))
				assert.True(t, b.Booked)
			}
		})
	}
	all.Wait()
	assert.Len(t, heightRows(t, s), before+10)
}

// heightRows are the rows of heights.csv.
func heightRows(t testing.TB, s *served) [][]string {
	t.Helper()
	r := csv.NewReader(strings.NewReader(s.file("heights.csv")))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows
}

func TestLevelBookAndTapes(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, writeAll(dir, map[string]string{
		"site.toml":    "name = \"Begun\"\ncoordinates = \"local\"\nunits = \"m\"\n",
		"features.csv": "kind,name,x,y\nmark,post,0,0\nmark,gate,10,0\n",
	}))
	s := serve(t, options(dir))
	level := func(id, station, back, inter, fore string) map[string]string {
		return map[string]string{"id": id, "station": station, "back": back, "inter": inter, "fore": fore, "level": "", "x": "", "y": "", "note": ""}
	}
	for _, l := range []map[string]string{level("level-line-1", "post", "1.5", "", ""), level("level-line-2", "A", "", "1.2", ""), level("level-line-3", "post", "", "", "1.5")} {
		var b booked
		require.Equal(t, http.StatusOK, s.post("/api/levels", l, &b), b.Message)
	}
	tie := map[string]any{"id": "tape-of-a-1", "point": "A", "method": "tie", "from": "post", "to": "gate", "a": "6", "b": "8", "side": "left", "note": ""}
	var b booked
	require.Equal(t, http.StatusOK, s.post("/api/ties", tie, &b), b.Message)
	assert.Contains(t, s.file("levels.csv"), "A")
	assert.Contains(t, s.file("ties.csv"), "post")

	placed := level("level-line-4", "B", "", "1.9", "")
	placed["x"], placed["y"] = "3", "4"
	require.Equal(t, http.StatusOK, s.post("/api/levels", placed, &b), b.Message)
	assert.Contains(t, s.file("heights.csv"), "B")
	require.Equal(t, http.StatusOK, s.post("/api/undo", map[string]string{"id": "level-line-4"}, nil))
	assert.NotContains(t, s.file("heights.csv"), "B,", "its place goes with it")

	tie["side"] = ""
	tie["id"] = "tape-of-a-2"
	assert.Equal(t, http.StatusUnprocessableEntity, s.post("/api/ties", tie, &b))
	assert.Equal(t, "side", b.Field)
}

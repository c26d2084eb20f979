package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPanicBecomesAMessage(t *testing.T) {
	var told bytes.Buffer
	code := guarded(&told, func() int {
		var none []int
		return none[len(told.String())]
	})
	assert.Equal(t, codeFailed, code)
	assert.Contains(t, told.String(), "a fault in Crossfall, not in your input")
	assert.Contains(t, told.String(), "index out of range")
	assert.Regexp(t, `in crossfall/cmd/crossfall/internal/cli\.TestPanic.* at white_internal_test\.go:\d+`, told.String())
	assert.NotContains(t, told.String(), "goroutine")
}

func TestLatitude(t *testing.T) {
	for text, want := range map[string]float64{
		"50.4": 50.4, "-41.2": -41.2, "41.2 S": -41.2, "41.2s": -41.2, "50.4°N": 50.4, "50.4 ° n": 50.4, "0": 0, "90": 90,
	} {
		got, err := latitude(text)
		assert.NoError(t, err, text)
		assert.InDelta(t, want, got, 1e-12, text)
	}
	for _, text := range []string{"", "S", "-41 S", "91", "NaN", "fifty", "50,4"} {
		_, err := latitude(text)
		assert.Error(t, err, text)
	}
}

func TestTomlStringComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringN(1, 40, -1).Draw(t, "text")
		var got struct{ Text string }
		err := toml.Unmarshal([]byte("text = "+tomlString(text)), &got)
		if err != nil || got.Text != text {
			t.Fatalf("%q came back as %q, %v", text, got.Text, err)
		}
	})
}

func TestMeasuresRefuse(t *testing.T) {
	for _, text := range []string{"", "-1", "NaN", "Inf", "1e9", "0.1", "three"} {
		_, err := metric().long.within("beds.length_m").parse(text)
		assert.Error(t, err, text)
	}
	v, err := feetAndInches().short.within("beds.depth_mm").parse("6")
	assert.NoError(t, err)
	assert.InDelta(t, 152.4, v, 1e-9)
	assert.Equal(t, "11.8", feetAndInches().long.said(3.6))
}

func TestCheckTarget(t *testing.T) {
	dir := t.TempDir()
	assert.NoError(t, checkTarget(filepath.Join(dir, "new.html")))
	assert.ErrorContains(t, checkTarget(dir), "it is a folder")
	assert.ErrorContains(t, checkTarget(filepath.Join(dir, "none", "new.html")), "there is no folder")
	assert.ErrorContains(t, checkTarget(os.DevNull), "not a plain file")
	require.NoError(t, os.Symlink(os.DevNull, filepath.Join(dir, "link.html")))
	assert.ErrorContains(t, checkTarget(filepath.Join(dir, "link.html")), "a link")
}

func TestMayColor(t *testing.T) {
	for _, c := range []struct {
		word     string
		env      map[string]string
		terminal bool
		want     bool
	}{
		{"auto", nil, true, true},
		{"auto", nil, false, false},
		{"auto", map[string]string{"NO_COLOR": "1"}, true, false},
		{"auto", map[string]string{"TERM": "dumb"}, true, false},
		{"always", map[string]string{"NO_COLOR": "1"}, false, true}, // asked for outright
		{"never", nil, true, false},
	} {
		got := mayColor(c.word, func(name string) string { return c.env[name] }, c.terminal)
		assert.Equal(t, c.want, got, "%+v", c)
	}
}

func TestNoTerminal(t *testing.T) {
	assert.False(t, isTerminal(&bytes.Buffer{}))
	assert.Equal(t, defaultWidth, width(&bytes.Buffer{}))
}

func TestProgress(t *testing.T) {
	var w bytes.Buffer
	p := progress{w: &w}
	for i := range int64(1000) {
		p.show("look for places", i, 1000)
	}
	p.clear()
	assert.Contains(t, w.String(), "look for places 0 %")
	assert.True(t, bytes.HasSuffix(w.Bytes(), []byte("\r\x1b[K")))
	assert.Less(t, w.Len(), 20*len("\r\x1b[Klook for places 99 %"), "drawn far less often than called")

	silent := newProgress(Streams{Err: &w})
	before := w.Len()
	silent.show("look for places", 1, 2)
	silent.clear()
	assert.Equal(t, before, w.Len())
}

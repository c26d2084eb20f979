package heightgrid

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Every number that is written is read as strconv reads it, to the last bit.
func TestDecimalIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[+-]?[0-9]{0,20}[.]?[0-9]{0,25}([eE][+-]?[0-9]{1,3})?`).Draw(t, "text")
		want, err := strconv.ParseFloat(text, 64)
		got, comma, ok := decimal([]byte(text))
		if ok != (err == nil) {
			t.Fatalf("%q: read %v, strconv %v", text, ok, err)
		}
		if ok && got != want || comma {
			t.Fatalf("%q: got %v, want %v", text, got, want)
		}
	})
}

func TestDecimalRefuses(t *testing.T) {
	for _, text := range []string{"", "-", ".", "+.", "e5", "1e", "1_000", "0x1p-2", "inf", "nan", "1..2", "1,2,3", "1-2", "--1", "1e400", "1.5m", "1,2.3"} {
		_, _, ok := decimal([]byte(text))
		assert.False(t, ok, text)
	}
	v, comma, ok := decimal([]byte("-12,5e1"))
	require.True(t, ok && comma)
	assert.Equal(t, -125.0, v)
}

package textfile_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDecode(t *testing.T) {
	for _, c := range []struct {
		name, data, declared, text string
		how                        textfile.Decoding
	}{
		{"plain", "a\nb", "", "a\nb", textfile.IsUTF8},
		{"mark", "\xef\xbb\xbfa", "", "a", textfile.IsUTF8},
		{"line ends", "a\r\nb\rc", "", "a\nb\nc", textfile.IsUTF8},
		{"UTF-16", "\xff\xfea\x00\r\x00\n\x00", "utf-16", "a\n", textfile.IsUTF8},
		{"UTF-16 the other way", "\xfe\xff\x00a", "", "a", textfile.IsUTF8},
		{"assumed", "B\xf6schung", "", "Böschung", textfile.Assumed},
		{"wrongly declared", "B\xf6schung", "UTF-8", "Böschung", textfile.Assumed},
		{"declared", "\xe4", "windows-1251", "д", textfile.ByName},
		{"not known", "\xe4", "EBCDIC", "", textfile.NameUnknown},
		{"binary", "a\x00b", "", "", textfile.NotText},
	} {
		text, how := textfile.Decode([]byte(c.data), c.declared)
		assert.Equal(t, c.text, text, c.name)
		assert.Equal(t, c.how, how, c.name)
	}
}

// Places must be those that counting from the start gives.
func TestPlacesCountLinesAndCharacters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		letters := rapid.SliceOfN(rapid.SampledFrom([]rune("aä€\n")), 0, 3000).Draw(t, "text")
		text := string(letters)
		p := textfile.NewPlaces("f", text)
		at := rapid.IntRange(0, len(letters)).Draw(t, "letter")
		before := string(letters[:at])
		line := 1 + strings.Count(before, "\n")
		col := 1 + len([]rune(before[strings.LastIndex(before, "\n")+1:]))
		want := geodata.Pos{File: "f", Line: line, Col: col}
		if text == "" {
			want = geodata.Pos{File: "f"}
		}
		assert.Equal(t, want, p.At(len(before)))
	})
}

func TestNumber(t *testing.T) {
	for text, want := range map[string]float64{" 27.93 ": 27.93, "-1e3": -1000, "+5": 5, ".5": 0.5, "0": 0} {
		v, ok := textfile.Number(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, v)
	}
	for _, text := range []string{"", "-", "27,93", "nan", "Inf", "0x1p4", "1_000", "1e999", "1 2", "undefined", "1.2.3"} {
		_, ok := textfile.Number(text)
		assert.False(t, ok, text)
	}
}

func TestFaultsDoNotGrowWithoutEnd(t *testing.T) {
	var fs textfile.Faults
	for i := range 1000 {
		fs.Problem(geodata.Pos{File: "f", Line: i + 1}, "bad", strings.Repeat("x", 5000), "bad", "")
		fs.Warn(geodata.Pos{File: "f", Line: i + 1}, "odd", "", "odd", "")
	}
	assert.Equal(t, 1000, fs.Problems())
	points, list := fs.Finish(geodata.Pos{File: "f"}, geodata.RawPoints{Points: make([]geodata.RawPoint, 3)}, "")
	assert.Empty(t, points.Points, "a file with a problem gives no points")
	assert.Len(t, list, 2*textfile.MostFaults+2)
	require.Equal(t, "more-faults", list[0].Code)
	assert.Contains(t, list[0].Message, "800 more problems not listed")
	assert.LessOrEqual(t, len(list[len(list)-1].Read), 70)
}

func TestFinishRefusesAnEmptyResult(t *testing.T) {
	var fs textfile.Faults
	_, list := fs.Finish(geodata.Pos{File: "f"}, geodata.RawPoints{}, "mark points")
	require.Len(t, list, 1)
	assert.Equal(t, "no-points", list[0].Code)
	assert.Equal(t, "mark points", list[0].Want)
}

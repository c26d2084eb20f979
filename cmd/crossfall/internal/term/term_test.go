package term_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"crossfall/cmd/crossfall/internal/term"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew")

func printed(t *testing.T, a *siting.Assessment, opt term.Options) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, term.Print(&b, a, opt))
	return b.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", "golden", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

func TestGolden(t *testing.T) {
	golden(t, "sloping-80.txt", printed(t, sitingtest.Sloping(), term.Options{}))
	golden(t, "sloping-40.txt", printed(t, sitingtest.Sloping(), term.Options{Width: 40}))
}

func TestNoLineIsTooWide(t *testing.T) {
	a := sitingtest.Sloping()
	a.Beds[0].Name = "Bête à fourrés über längs, " + strings.Repeat("x", 90)
	for _, width := range []int{24, 40, 80, 120} {
		for _, u := range []geodata.Units{"m", "ft"} {
			for i, l := range strings.Split(printed(t, a, term.Options{Width: width, Units: u}), "\n") {
				assert.LessOrEqual(t, utf8.RuneCountInString(l), width, "line %d at width %d: %q", i+1, width, l)
				assert.Equal(t, strings.TrimRight(l, " "), l)
			}
		}
	}
}

func TestTableAtEightyAndBlocksAtForty(t *testing.T) {
	wide := printed(t, sitingtest.Sloping(), term.Options{Width: 80})
	assert.Regexp(t, `(?m)^  Bed\s+Edge\s+Firm\s+Fall\s+Boards\s+Pegs\s+Fill$`, wide)
	narrow := printed(t, sitingtest.Sloping(), term.Options{Width: 40})
	assert.NotRegexp(t, `Bed\s+Edge\s+Firm`, narrow)
	assert.Regexp(t, `(?m)^  Bed 1\n    Edge    boarded$`, narrow)
}

func TestFirstLineThenDecisionThenStops(t *testing.T) {
	out := printed(t, sitingtest.Sloping(), term.Options{})
	assert.True(t, strings.HasPrefix(out, "Read as local metres: "))
	order := []string{"Read as", "What to do", "STOP  Pegs of Bed 5", "\nBeds\n", "\nBed 1\n", "\nWater\n", "What to buy and carry", "\nCautions\n", "What was assumed", "Heights to read again", "\nNext reading\n"}
	last := -1
	for _, part := range order {
		at := strings.Index(out, part)
		require.Greater(t, at, last, part)
		last = at
	}
}

func TestColourOnlyMarks(t *testing.T) {
	coloured := printed(t, sitingtest.Sloping(), term.Options{Color: true})
	assert.Contains(t, coloured, "\x1b[")
	assert.Equal(t, printed(t, sitingtest.Sloping(), term.Options{}), regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(coloured, ""))
}

func TestFeetEverywhere(t *testing.T) {
	for _, l := range strings.Split(printed(t, sitingtest.Sloping(), term.Options{Units: "ft"}), "\n") {
		assert.NotRegexp(t, `\d ?(mm|m|m²|m³|kg)\b`, l)
	}
}

func TestNothingPlaced(t *testing.T) {
	out := printed(t, &siting.Assessment{}, term.Options{})
	assert.Contains(t, out, "No bed was placed.")
	assert.NotContains(t, out, "\nBeds\n")
	assert.NotContains(t, out, "NaN")
}

func TestFaults(t *testing.T) {
	var fs geodata.Faults
	for i := range 25 {
		fs.Add(geodata.Fault{
			Code: "not-a-number", Pos: geodata.Pos{File: "heights.csv", Line: i + 2, Col: 9},
			Read: "12,4", Message: "the height is not a number", Want: "write 12.4 with a point",
		})
	}
	fs[1].Severity = geodata.Note
	var b bytes.Buffer
	require.NoError(t, term.Faults(&b, fs, 0))
	lines := strings.Split(strings.TrimRight(b.String(), "\n"), "\n")
	require.Len(t, lines, 2*20+1)
	assert.Equal(t, "problem: heights.csv:2:9: the height is not a number", lines[0])
	assert.Equal(t, `  read "12,4"; write 12.4 with a point`, lines[1])
	assert.Equal(t, "24 problems, 1 note; the first 20 are shown.", lines[40])
	b.Reset()
	require.NoError(t, term.Faults(&b, nil, 0))
	assert.Equal(t, "Nothing wrong was found.\n", b.String())
}

func ExampleFaults() {
	var fs geodata.Faults
	fs.Add(geodata.Fault{
		Pos: geodata.Pos{File: "heights.csv", Line: 4, Col: 7}, Read: "1O.2",
		Message: "the height is not a number", Want: "write 10.2",
	})
	var b bytes.Buffer
	if err := term.Faults(&b, fs, 20); err != nil {
		fmt.Println(err)
	}
	fmt.Print(b.String())
	// Output:
	// problem: heights.csv:4:7: the height is not a number
	//   read "1O.2"; write 10.2
	// 1 problem.
}

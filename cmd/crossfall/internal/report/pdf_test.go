package report_test

import (
	"bytes"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/report"
	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func pdf(t *testing.T, a *siting.Assessment, opt report.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.PDF(&b, a, opt))
	return b.Bytes()
}

// read is the text of a PDF as another program reads it, with one space for any
// white space.
func read(t *testing.T, doc []byte) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not here")
	}
	c := exec.Command(tool, "-raw", "-", "-")
	c.Stdin = bytes.NewReader(doc)
	out, err := c.Output()
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(out)), " ")
}

func TestPDFIsTheSameBytesEachTime(t *testing.T) {
	assert.True(t, bytes.Equal(pdf(t, sitingtest.Sloping(), report.Options{}), pdf(t, sitingtest.Sloping(), report.Options{})))
}

func TestPDFSaysWhatThePageSays(t *testing.T) {
	a := sitingtest.Sloping()
	text := read(t, pdf(t, a, report.Options{Date: "1 March 2026", Version: "1.2.3"}))
	for _, c := range a.Cautions {
		assert.Contains(t, text, c.ID)
	}
	last := 0
	for _, part := range []string{"Upper field & orchard", "1 March 2026", "What to do", "STOP", "Plan", "What to buy and carry", "Cautions", "Bed 1", "Because", "Bed 2",
		"Water", "Cutting and carrying", "Edges compared", "What was assumed", "How sure the ground is", "Working"} {
		at := strings.Index(text[last:], part)
		require.GreaterOrEqual(t, at, 0, part)
		last += at
	}
	numbers := regexp.MustCompile(`page (\d+) of (\d+)`).FindAllStringSubmatch(text, -1)
	require.Greater(t, len(numbers), 5)
	assert.Equal(t, "1", numbers[0][1])
	assert.Equal(t, numbers[len(numbers)-1][2], numbers[len(numbers)-1][1], "the last page is the last")
}

func TestPDFInFeet(t *testing.T) {
	text := read(t, pdf(t, sitingtest.Sloping(), report.Options{Units: "ft", Page: "Letter"}))
	assert.NotRegexp(t, `\d ?(mm|m|m²|m³|kg)\b`, text)
	assert.Contains(t, text, " ft ")
}

func TestPDFOfPagesAndOfNothing(t *testing.T) {
	assert.Contains(t, string(pdf(t, sitingtest.Sloping(), report.Options{Page: "Letter"})), "/MediaBox [0 0 612.00 792.00]", "8 1/2 by 11 inches of 72 points")
	assert.ErrorContains(t, report.PDF(&bytes.Buffer{}, sitingtest.Sloping(), report.Options{Page: "A0"}), "A4 or Letter")
	text := read(t, pdf(t, &siting.Assessment{}, report.Options{}))
	assert.Contains(t, text, "There is no boundary to draw.")
	assert.Contains(t, text, "No bed was placed.")
	assert.NotContains(t, text, "NaN")
}

// Names that people type may hold any letter; nothing breaks on one.
func TestAnyLetterMayStandInAName(t *testing.T) {
	for _, name := range []string{"Plot \U0001F331", "菜园", "حديقة", "a\x00b\xffc", "(back\\slash)", strings.Repeat("long", 100)} {
		a := sitingtest.Sloping()
		a.Name, a.Beds[0].Name = name, name
		assert.NotPanics(t, func() { assert.NotEmpty(t, pdf(t, a, report.Options{})) }, "%q", name)
	}
	const said = "Not every name could be written in the typeface of this file"
	a := sitingtest.Sloping()
	assert.NotContains(t, read(t, pdf(t, a, report.Options{})), said)
	assert.NotContains(t, read(t, pdf(t, example(t, "claybank"), report.Options{})), said)
	a.Beds[0].Name, a.Beds[1].Name = "菜园", "Thế"
	pages := pagesOf(t, pdf(t, a, report.Options{}))
	assert.Contains(t, strings.Join(pages[0], " "), said)
	heads := map[string]bool{}
	for _, lines := range pages {
		for _, l := range lines[:min(1, len(lines))] {
			heads[l] = true
		}
	}
	assert.True(t, heads["[83DC][56ED]"] && heads["Thê"], "%v", heads)
}

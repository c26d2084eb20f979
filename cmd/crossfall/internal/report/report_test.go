package report_test

import (
	"bytes"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/report"
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func written(t *testing.T, a *siting.Assessment, opt report.Options) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.Write(&b, a, opt))
	return b.String()
}

// tag matches an opening, closing or empty tag.
var tag = regexp.MustCompile(`<(/?)([a-zA-Z][a-zA-Z0-9]*)(?:[^<>"]|"[^"]*")*?(/?)>`)

func TestTagsAreBalanced(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{})
	doc = regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(doc, "")
	void := []string{"meta", "br", "link"}
	var open []string
	for _, m := range tag.FindAllStringSubmatch(doc, -1) {
		switch {
		case m[3] == "/" || slices.Contains(void, m[2]):
		case m[1] == "":
			open = append(open, m[2])
		default:
			require.NotEmpty(t, open, m[0])
			require.Equal(t, open[len(open)-1], m[2])
			open = open[:len(open)-1]
		}
	}
	assert.Empty(t, open)
	left := tag.ReplaceAllString(strings.TrimPrefix(doc, "<!DOCTYPE html>"), "")
	assert.NotContains(t, left, "<", "a text was not escaped")
}

func TestHeadingsDoNotSkipALevel(t *testing.T) {
	last := 0
	for _, m := range regexp.MustCompile(`<h([1-6])`).FindAllStringSubmatch(written(t, sitingtest.Sloping(), report.Options{}), -1) {
		level := int(m[1][0] - '0')
		assert.LessOrEqual(t, level, last+1)
		last = level
	}
	assert.NotZero(t, last)
}

func TestIDsAreUniqueAndLinksLead(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{})
	ids := map[string]int{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(doc, -1) {
		ids[m[1]]++
		assert.Equal(t, 1, ids[m[1]], m[1])
	}
	for _, m := range regexp.MustCompile(` href="#([^"]*)"`).FindAllStringSubmatch(doc, -1) {
		assert.Equal(t, 1, ids[m[1]], m[1])
	}
}

func TestNothingIsFetchedAndNoScriptRuns(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{})
	assert.NotRegexp(t, `(?i)<script|<link|<img|<iframe|@import|url\(|\son[a-z]+=| src=`, doc)
	for _, m := range regexp.MustCompile(`https?://[^"]*`).FindAllString(doc, -1) {
		assert.Equal(t, "http://www.w3.org/2000/svg", m, "a name, not an address that is fetched")
	}
	assert.NotContains(t, doc, "ZgotmplZ", "the template refused a value")
}

func TestEveryCautionIsThereEscaped(t *testing.T) {
	a := sitingtest.Sloping()
	doc := written(t, a, report.Options{})
	assert.NotContains(t, doc, sitingtest.Odd)
	text := strings.ReplaceAll(html.UnescapeString(doc), "\u00a0", " ") // inside figures
	for _, c := range a.Cautions {
		assert.Contains(t, text, c.Text[1:], c.ID)
		assert.Contains(t, text, c.ID)
	}
	assert.Contains(t, doc, "<b>STOP</b>")
	cautions := doc[strings.Index(doc, `<section id="cautions"`):]
	assert.Less(t, strings.Index(cautions, "<b>STOP</b>"), strings.Index(cautions, "<b>WARNING</b>"))
}

func TestOrderOfTheParts(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{})
	last := 0
	for _, part := range []string{"Read as local metres", `<section id="decision"`, `<section id="plan"`, "<svg", `<section id="buying"`, `<section id="cautions"`,
		`<section id="bed-1"`, "<dt>Because</dt>", `<section id="bed-2"`, `class="section-ground"`, `<section id="water"`, "Cut list", `<section id="edges"`,
		`<section id="assumed"`, `<section id="sure"`, `<section id="working"`} {
		at := strings.Index(doc[last:], part)
		require.GreaterOrEqual(t, at, 0, part)
		last += at
	}
}

func TestTablesHaveScopedHeads(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{})
	assert.Equal(t, strings.Count(doc, "<th"), strings.Count(doc, `<th scope=`)+strings.Count(doc, "<thead"))
	for _, h := range words.BedHeads() {
		assert.Contains(t, doc, `<th scope="col">`+h+"</th>")
	}
}

func TestFeetEverywhere(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{Units: "ft"})
	body := regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(doc, "")
	text := html.UnescapeString(tag.ReplaceAllString(body, "\n"))
	text = strings.ReplaceAll(text, words.NoBreak, " ")
	for _, l := range strings.Split(text, "\n") {
		assert.NotRegexp(t, `\d ?(mm|m|m²|m³|kg)\b`, l)
	}
}

func TestPlanPrintsAtFullSize(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{Paper: "A3"})
	assert.Contains(t, doc, "@page plan { size: 420mm 297mm; margin: 0; }")
	assert.Contains(t, doc, `width="420.00mm" height="297.00mm"`)
}

func TestWithoutBoundaryOrBeds(t *testing.T) {
	doc := written(t, &siting.Assessment{}, report.Options{})
	assert.Contains(t, doc, "There is no boundary to draw.")
	assert.Contains(t, doc, "No bed was placed.")
	assert.NotContains(t, doc, "NaN")
}

func TestSameBytesEachTime(t *testing.T) {
	assert.Equal(t, written(t, sitingtest.Sloping(), report.Options{}), written(t, sitingtest.Sloping(), report.Options{}))
}

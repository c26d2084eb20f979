package plan_test

import (
	"bytes"
	"io"
	"os/exec"
	"testing"

	"crossfall/siting"
	"crossfall/siting/plan"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPDFHasThePageOfTheSheet(t *testing.T) {
	for paper, box := range map[string]string{"A4": "/MediaBox [0 0 841.89 595.28]", "A3": "/MediaBox [0 0 1190.55 841.89]"} {
		var b bytes.Buffer
		require.NoError(t, plan.PDF(&b, sitingtest.Sloping(), plan.Options{Paper: paper}))
		assert.Equal(t, 1, bytes.Count(b.Bytes(), []byte("/Type /Page\n")))
		assert.Contains(t, b.String(), box, "%s in points of 1/72 inch", paper)
		assert.Contains(t, b.String(), "/Lang (en)")
	}
}

func TestPDFAndPNGAreTheSameBytesEachTime(t *testing.T) {
	var b [4]bytes.Buffer
	for i := range 2 {
		require.NoError(t, plan.PDF(&b[i], sitingtest.Sloping(), plan.Options{}))
		require.NoError(t, plan.PNG(&b[2+i], sitingtest.Sloping(), plan.Options{DPI: 50}))
	}
	assert.True(t, bytes.Equal(b[0].Bytes(), b[1].Bytes()))
	assert.True(t, bytes.Equal(b[2].Bytes(), b[3].Bytes()))
}

func TestNothingToDrawAsPDFOrPNG(t *testing.T) {
	var b bytes.Buffer
	a := sitingtest.Sloping()
	a.Frame.Boundary = nil
	assert.ErrorIs(t, plan.PDF(&b, a, plan.Options{}), plan.ErrNothingToDraw)
	assert.ErrorIs(t, plan.PNG(&b, a, plan.Options{}), plan.ErrNothingToDraw)
	assert.Zero(t, b.Len())
}

// Names that people type may hold any letter, and nothing breaks. What the typeface
// of a PDF lacks is said at its foot; an SVG is written in the letters of its reader.
func TestAnyLetterMayStandInAName(t *testing.T) {
	for _, name := range []string{"Plot \U0001F331", "菜园", "حديقة", "a\x00b\xffc", "ž½²→≤", "(back\\slash)"} {
		a := sitingtest.Sloping()
		a.Name, a.Beds[0].Name = name, name
		for what, write := range map[string]func(io.Writer, *siting.Assessment, plan.Options) error{"svg": plan.SVG, "pdf": plan.PDF, "png": plan.PNG} {
			assert.NotPanics(t, func() { assert.NoError(t, write(io.Discard, a, plan.Options{}), "%q as %s", name, what) }, "%q as %s", name, what)
		}
	}
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not here: what a reader finds in a PDF is not looked at")
	}
	for name, want := range map[string]string{"菜园": "[83DC][56ED]", "Thế": "Thê", "Søndermark": "Søndermark"} {
		a := sitingtest.Sloping()
		a.Name = name
		var b, picture bytes.Buffer
		require.NoError(t, plan.PDF(&b, a, plan.Options{}))
		c := exec.Command(tool, "-raw", "-", "-")
		c.Stdin = &b
		text, err := c.Output()
		require.NoError(t, err)
		assert.Contains(t, string(text), want)
		require.NoError(t, plan.SVG(&picture, a, plan.Options{}))
		assert.Contains(t, picture.String(), name)
		assert.NotContains(t, picture.String(), "could be written")
		if name == want {
			assert.NotContains(t, string(text), "could be written")
		} else {
			assert.Contains(t, string(text), "Not every name could be written")
		}
	}
}

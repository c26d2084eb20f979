package plan_test

import (
	"bytes"
	"flag"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"crossfall/siting"
	"crossfall/siting/plan"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pictureDPI is coarse: a golden picture shows where ink is, not how letters are
// hinted.
const pictureDPI = 40

// agree is the share of squares that may differ between programs: letters of other
// typefaces among them.
const agree = .0004

// darkness is a picture as rows of ink, 0 for paper to 1, each square the mean of
// three by three dots, so that a hair's breadth beside its place does not count.
func darkness(t *testing.T, picture []byte) [][]float64 {
	t.Helper()
	p, err := png.Decode(bytes.NewReader(picture))
	require.NoError(t, err)
	return squares(p)
}

func squares(p image.Image) [][]float64 {
	const side = 3
	b := p.Bounds()
	out := make([][]float64, b.Dy()/side)
	for y := range out {
		out[y] = make([]float64, b.Dx()/side)
		for x := range out[y] {
			for i := range side * side {
				r, g, bl, _ := p.At(b.Min.X+x*side+i%side, b.Min.Y+y*side+i/side).RGBA()
				out[y][x] += (1 - (float64(r)+float64(g)+float64(bl))/(3*0xffff)) / (side * side)
			}
		}
	}
	return out
}

// unlike is the share of squares whose ink differs by more than 0.27.
func unlike(a, b [][]float64) float64 {
	rows := min(len(a), len(b))
	different, all := 0, 0
	for y := range rows {
		for x := range min(len(a[y]), len(b[y])) {
			all++
			if math.Abs(a[y][x]-b[y][x]) > .27 {
				different++
			}
		}
	}
	return float64(different) / float64(max(1, all))
}

// raster turns a drawing into a picture by a program that is not ours.
func raster(t *testing.T, drawing []byte, tool string, arguments ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(tool)
	if err != nil {
		t.Skipf("%s is not here", tool)
	}
	c := exec.Command(path, arguments...)
	c.Stdin = bytes.NewReader(drawing)
	out, err := c.Output()
	require.NoError(t, err)
	return out
}

// The same plan as SVG drawn by librsvg, as PDF drawn by Poppler and as PNG of our
// own show the same picture, which is the golden one.
func TestPicturesOfThreeProgramsAgree(t *testing.T) {
	file := filepath.Join("testdata", "golden", "sloping.png")
	write := func(how func(w *bytes.Buffer, a *siting.Assessment, o plan.Options) error) []byte {
		var b bytes.Buffer
		require.NoError(t, how(&b, sitingtest.Sloping(), plan.Options{DPI: pictureDPI}))
		return b.Bytes()
	}
	own := write(func(w *bytes.Buffer, a *siting.Assessment, o plan.Options) error { return plan.PNG(w, a, o) })
	if flag.Lookup("update").Value.String() == "true" {
		require.NoError(t, os.WriteFile(file, own, 0o644))
	}
	golden, err := os.ReadFile(file)
	require.NoError(t, err)
	want := darkness(t, golden)
	assert.Less(t, unlike(want, darkness(t, own)), agree)
	t.Run("svg", func(t *testing.T) {
		drawing := write(func(w *bytes.Buffer, a *siting.Assessment, o plan.Options) error { return plan.SVG(w, a, o) })
		got := darkness(t, raster(t, drawing, "rsvg-convert", "--dpi-x", "40", "--dpi-y", "40"))
		require.InDelta(t, len(want), len(got), 1)
		assert.Less(t, unlike(want, got), agree)
	})
	t.Run("pdf", func(t *testing.T) {
		drawing := write(func(w *bytes.Buffer, a *siting.Assessment, o plan.Options) error { return plan.PDF(w, a, o) })
		got := darkness(t, raster(t, drawing, "pdftoppm", "-r", "40", "-png", "-singlefile", "-"))
		require.InDelta(t, len(want), len(got), 1)
		assert.Less(t, unlike(want, got), agree)
	})
}

// A picture with one bed less is not taken for the same.
func TestPicturesThatDifferAreTold(t *testing.T) {
	picture := func(a *siting.Assessment) [][]float64 {
		var b bytes.Buffer
		require.NoError(t, plan.PNG(&b, a, plan.Options{DPI: pictureDPI}))
		return darkness(t, b.Bytes())
	}
	less := sitingtest.Sloping()
	less.Beds[0].Corners[0][0] += 1.5
	less.Beds[0].Corners[1][0] += 1.5
	assert.Greater(t, unlike(picture(sitingtest.Sloping()), picture(less)), 2*agree)
}

package page_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// browser is one tab of a headless Chromium.
type browser struct {
	ctx context.Context
	t   testing.TB
}

// browse opens the page in a browser of so many pixels; without one the test is
// skipped.
func browse(t testing.TB, url string, width, height int) *browser {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("there is no chromium to open the page in")
	}
	all := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.WindowSize(width, height),
		chromedp.WSURLReadTimeout(time.Minute), chromedp.Flag("disable-dev-shm-usage", true))
	allocated, stop := chromedp.NewExecAllocator(t.Context(), all...)
	t.Cleanup(stop)
	ctx, end := chromedp.NewContext(allocated)
	t.Cleanup(end)
	b := &browser{ctx: ctx, t: t}
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(int64(width), int64(height))))
	b.open(url)
	return b
}

// open goes to an address. The page's streams never end, so that it is not waited
// for them.
func (b *browser) open(url string) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, chromedp.Navigate(url)))
}

// js evaluates an expression.
func js[T any](b *browser, expression string, args ...any) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](fmt.Sprintf(expression, args...)))
	require.NoError(b.t, err, expression)
	return v
}

// wait waits until an expression holds.
func (b *browser) wait(expression string, args ...any) {
	b.t.Helper()
	said := fmt.Sprintf(expression, args...)
	deadline := time.Now().Add(45 * time.Second)
	for time.Now().Before(deadline) {
		holds, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool]("Boolean("+said+")"))
		if err == nil && holds {
			return
		}
		if b.ctx.Err() != nil { // else it may be between two pages
			require.NoError(b.t, err)
		}
		time.Sleep(30 * time.Millisecond)
	}
	b.shot("stuck")
	require.Fail(b.t, "the page never came to it", "%s\nthe page says: %s", said, js[string](b, "document.body.innerText.slice(0, 1500)"))
}

// quoted is a text as JavaScript writes it.
func quoted(t string) string {
	text, err := json.Marshal(t)
	if err != nil {
		panic(err)
	}
	return string(text)
}

// press presses the button, link or choice that says this.
func (b *browser) press(said string) {
	b.t.Helper()
	find := fmt.Sprintf(`[...document.querySelectorAll('button, a, label.tick, .choice label, summary')].find(e => !e.disabled && (e.innerText.trim() === %[1]s || e.getAttribute('aria-label') === %[1]s))`, quoted(said))
	b.wait("%s", find)
	js[bool](b, "(%s.click(), true)", find)
}

// key writes into the field with this label, as a person would.
func (b *browser) key(label, text string) {
	b.t.Helper()
	find := fmt.Sprintf(`[...document.querySelectorAll('main label')].find(l => l.innerText.trim().startsWith(%s) && l.htmlFor)`, quoted(label))
	b.wait("%s", find)
	js[bool](b, `(e => { e.focus(); e.value = %s; e.dispatchEvent(new Event('input', {bubbles: true})); e.dispatchEvent(new Event('change', {bubbles: true})); return true })(document.getElementById(%s.htmlFor))`, quoted(text), find)
}

// screen goes to one of the screens and waits for it.
func (b *browser) screen(name string) {
	b.t.Helper()
	js[bool](b, "(location.hash = %s, true)", quoted(name))
	b.wait("document.getElementById('main').dataset.screen === %s", quoted(name))
}

// says waits until the page shows a text.
func (b *browser) says(text string) {
	b.t.Helper()
	b.wait("document.body?.innerText.includes(%s)", quoted(text))
}

// shot keeps a picture of the whole page and one of what the screen shows in the folder that CROSSFALL_SHOTS names, to be looked at.
func (b *browser) shot(name string) {
	b.t.Helper()
	dir := os.Getenv("CROSSFALL_SHOTS")
	if dir == "" {
		return
	}
	for ending, take := range map[string]chromedp.Action[[]byte]{".jpg": chromedp.FullScreenshot(90), ".png": chromedp.CaptureScreenshot()} {
		picture, err := chromedp.Run(b.ctx, take)
		require.NoError(b.t, err)
		require.NoError(b.t, os.WriteFile(filepath.Join(dir, name+ending), picture, 0o644))
	}
}

// sizes are a phone held upright and a laptop.
var sizes = []struct {
	name          string
	width, height int
}{{"phone", 360, 740}, {"laptop", 1280, 800}}

// TestScreens walks through every screen of the example as a new user would.
func TestScreens(t *testing.T) {
	for _, size := range sizes {
		t.Run(size.name, func(t *testing.T) {
			s := serve(t, options(plotOf(t, "hillside")))
			b := browse(t, s.url, size.width, size.height)
			b.wait("document.getElementById('plot-name').textContent === 'Hillside'")

			for _, screen := range []string{"before", "walk", "look", "settle", "build"} {
				b.screen(screen)
				if screen != "before" && screen != "walk" {
					b.wait("document.querySelectorAll('main table, main dl').length > 0")
				}
				b.wait("document.querySelector('main h1')")
				if screen == "walk" {
					b.says("Next:")
				}
				time.Sleep(300 * time.Millisecond)
				b.shot(size.name + "-" + screen)
				wide := js[int](b, "document.documentElement.scrollWidth")
				assert.LessOrEqual(t, wide, size.width, "%s is wider than the screen", screen)
			}
		})
	}
}

// TestABedIsSettled moves a bed by its figures and by keys, sees what follows,
// writes it, and finds it in the plot's files.
func TestABedIsSettled(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	b := browse(t, s.url+"/#settle", 1280, 800)
	b.wait("document.querySelectorAll('[data-drag]').length === 4")
	before := s.revision()

	b.key("Middle, north", "15")
	b.says("Tried only: nothing is written yet.")
	b.wait("performance.getEntriesByName('crossfall-try').length === 1")
	assert.Equal(t, before, s.revision())

	js[bool](b, "(document.querySelector('[data-drag=\"0\"]').focus(), true)")
	js[bool](b, `(document.querySelector('[data-drag="0"]').dispatchEvent(new KeyboardEvent('keydown', {key: 'ArrowRight', bubbles: true})), true)`)
	b.wait("performance.getEntriesByName('crossfall-try').length === 2")
	for _, took := range js[[]float64](b, "performance.getEntriesByName('crossfall-try').map(e => e.duration)") {
		t.Logf("moved bed worked out in %.0f ms, as the page saw it", took)
	}

	b.press("Lay this one aside to compare")
	b.key("Beds in all", "5")
	b.press("Arrange")
	b.wait("document.querySelectorAll('[data-drag]').length === 5")
	b.says("Two layouts")
	b.shot("laptop-compare")
	b.press("Write these beds into the plot")
	b.wait("!document.body?.innerText.includes('Tried only')")
	plot, err := plotfolder.Read(s.dir, plotfolder.Options{})
	require.NoError(t, err)
	beds := plot.OfKind(geodata.BedKind)
	require.Len(t, beds, 5)
	centre, _ := planar.CentroidArea(beds[0].Shape)
	assert.InDelta(t, 15, centre[1], 0.01, "the bed that was moved stays where it was put")
}

// TestAPlotFromNothing begins a plot on a phone, draws it, keys in readings, is
// challenged, and comes to a decision.
func TestAPlotFromNothing(t *testing.T) {
	dir := t.TempDir()
	s := serve(t, options(dir))
	b := browse(t, s.url, 360, 740)
	b.key("Name of the plot", "Upper field")
	b.press("Begin")
	b.says("Drawn so far")
	plotDir := filepath.Join(dir, "upper-field")

	corners := [][2]string{{"0", "0"}, {"10", "0"}, {"10", "12"}, {"0", "12"}}
	for i, at := range corners {
		b.press("Add a corner by x and y")
		b.wait("document.querySelectorAll('.corners li').length === %d", i+1)
		for k, v := range at {
			js[bool](b, `(e => { e.value = %s; e.dispatchEvent(new Event('input', {bubbles: true})); return true })(document.querySelectorAll('.corners li')[%d].querySelectorAll('input')[%d])`, quoted(v), i, k)
		}
	}
	b.press("Put it on the plot")
	b.says("outline, 4 corners")

	b.key("Latitude", "Exeter")
	b.wait("document.querySelector('main').innerText.includes('latitude 50.7')")
	js[bool](b, `(document.querySelector('input[name="service-gas"][value="none"]').click(), true)`)
	b.key("How you know", "the supplier's plan")
	b.screen("walk")
	b.says("Begin near a corner of the plot")
	z := func(x, y float64) string { return fmt.Sprintf("%.3f", 10+0.08*y+0.01*x) }
	n := 0
	book := func(x, y float64, height string) {
		b.key("East, x", fmt.Sprint(x))
		b.key("North, y", fmt.Sprint(y))
		b.key("Height, z", height)
		b.press("Book it")
		n++
	}
	for _, at := range [][2]float64{{0.5, 0.5}, {9.5, 0.5}, {9.5, 11.5}, {0.5, 11.5}, {5, 6}, {5, 0.5}, {0.5, 6}, {9.5, 6}, {5, 11.5}} {
		book(at[0], at[1], z(at[0], at[1]))
		b.wait("document.querySelectorAll('.keyed li').length === %d", n)
	}
	book(3, 3, "10.72") // 10.27 with two figures changed about
	b.says("Is that right?")
	b.says("above what its neighbours say")
	b.shot("phone-challenge")
	b.press("10.72 is right")
	b.wait("document.querySelectorAll('.keyed li').length === %d", n)
	b.press("Take back the last")
	b.wait("document.querySelectorAll('.keyed li').length === %d", n-1)

	b.screen("settle")
	b.wait("document.querySelectorAll('[data-drag]').length > 0")
	b.screen("build")
	b.says("To buy and carry")
	plot, err := plotfolder.Read(plotDir, plotfolder.Options{})
	require.NoError(t, err)
	assert.Len(t, plot.Spots, 9)
	assert.Equal(t, "none, known by the supplier's plan", plot.Site.Services[geodata.Gas])
	assert.InDelta(t, 50.7, *plot.Site.Place.Latitude, 0)
}

// TestOutOfReach keys in twenty readings without a connection, opens the page anew,
// and comes back: each is in the file once, in its order.
func TestOutOfReach(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	b := browse(t, s.url+"/#walk", 360, 740)
	b.says("Next:")
	b.wait("navigator.serviceWorker.controller")
	before := len(heightRows(t, s))

	s.cut()
	for i := range 20 {
		b.key("East, x", fmt.Sprint(1+0.8*float64(i)))
		b.key("North, y", "10")
		b.key("Height, z", "29."+fmt.Sprint(60-i))
		b.key("Name", fmt.Sprintf("far %02d", i))
		b.press("Book it")
		b.says(fmt.Sprintf("%d not yet saved to the laptop", i+1))
	}
	assert.Len(t, heightRows(t, s), before)
	b.open(s.url + "/#walk") // as after the screen was locked
	require.NoError(t, chromedp.Do(b.ctx, chromedp.Reload()))
	b.says("20 not yet saved to the laptop")
	b.shot("phone-out-of-reach")

	s.mend()
	b.wait("!document.getElementById('waiting').textContent || document.querySelector('.challenge')")
	for js[bool](b, "Boolean(document.querySelector('.challenge'))") { // those that the hillside does not agree with
		said := js[string](b, "[...document.querySelectorAll('.challenge button')].find(e => e.innerText.endsWith('is right')).innerText")
		waiting := js[string](b, "document.getElementById('waiting').textContent")
		b.press(said)
		b.wait("document.getElementById('waiting').textContent !== %s", quoted(waiting))
	}
	b.wait("!document.getElementById('waiting').textContent")
	rows := heightRows(t, s)
	require.Len(t, rows, before+20)
	got := map[string]int{}
	for _, row := range rows[before:] {
		got[row[0]]++
	}
	for i := range 20 {
		assert.Equal(t, 1, got[fmt.Sprintf("far %02d", i)], "reading %d", i)
	}
}

// TestAccessible has every screen of the page judged by axe-core, in light and dark.
func TestAccessible(t *testing.T) {
	axe, err := os.ReadFile(filepath.Join("testdata", "axe-core", "axe.min.js"))
	require.NoError(t, err)
	s := serve(t, options(plotOf(t, "hillside")))
	b := browse(t, s.url, 360, 740)
	for _, scheme := range []string{"light", "dark"} {
		require.NoError(t, chromedp.Do(b.ctx, func(ctx context.Context, to *chromedp.Target) (chromedp.Void, error) {
			_, err := cdp.Call(ctx, to, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
				Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
			})
			return chromedp.Void{}, err
		}))
		for _, screen := range []string{"before", "walk", "look", "settle", "build"} {
			b.screen(screen)
			switch screen {
			case "walk":
				b.says("Next:")
			case "look", "build":
				b.wait("document.querySelector('main dl')")
			case "settle":
				b.wait("document.querySelector('main table')")
			}
			b.shot("phone-" + scheme + "-" + screen)
			js[bool](b, "(%s, true)", "(0, eval)("+quoted(string(axe))+")")
			found, err := chromedp.Run(b.ctx, chromedp.Evaluate[[]finding](axeRun, chromedp.EvalAwaitPromise))
			require.NoError(t, err)
			for _, f := range found {
				assert.Fail(t, "a barrier", "%s, %s: %s (%s) at %v", scheme, screen, f.Help, f.Impact, f.At)
			}
			small := js[[]string](b, smallTargets)
			assert.Empty(t, small, "%s: targets under 24 pixels", screen)
		}
	}
}

// finding is one barrier that axe-core found.
type finding struct {
	ID, Help, Impact string
	At               []string
}

const axeRun = `axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}).then(r => r.violations.map(v => ({ID: v.id, Help: v.help, Impact: v.impact, At: v.nodes.slice(0, 3).map(n => n.html.slice(0, 160) + ' ' + n.failureSummary.slice(0, 200))})))`

const smallTargets = `[...document.querySelectorAll('button, nav a, main a, input, select, summary')].filter(e => { const r = (e.closest('label') || e).getBoundingClientRect(); return r.width > 0 && (r.width < 24 || r.height < 24) }).map(e => e.outerHTML.slice(0, 120))`

// TestNothingLeavesTheMachine counts where the page asks for anything.
func TestNothingLeavesTheMachine(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	b := browse(t, s.url, 1280, 800)
	for _, screen := range []string{"before", "walk", "look", "settle", "build"} {
		b.screen(screen)
		time.Sleep(300 * time.Millisecond)
	}
	for _, asked := range js[[]string](b, "performance.getEntriesByType('resource').map(e => e.name)") {
		assert.True(t, strings.HasPrefix(asked, s.url+"/"), asked)
	}
}

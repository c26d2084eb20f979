package page_test

import (
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// problem is what the server says of what it did not do.
type problem struct {
	Code, Message, Field string
}

func TestOnlyItsOwnNameIsAnswered(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	r, err := http.NewRequest(http.MethodGet, s.url+"/api/plot", nil)
	require.NoError(t, err)
	r.Host = "garden.example" // a name that a stranger's page had resolved to this machine
	var p problem
	assert.Equal(t, http.StatusMisdirectedRequest, s.do(r, &p))
	assert.Equal(t, "wrong-host", p.Code)
}

func TestOnlyItsOwnPageMayChangeAnything(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := s.revision()
	body := `{"id":"aaaaaaaa","name":"","x":"3","y":"3","z":"29.7","note":"","keep":true}`
	for name, spoil := range map[string]func(*http.Request){
		"another origin":       func(r *http.Request) { r.Header.Set("Origin", "http://garden.example") },
		"no origin":            func(r *http.Request) { r.Header.Del("Origin") },
		"a form":               func(r *http.Request) { r.Header.Set("Content-Type", "application/x-www-form-urlencoded") },
		"text":                 func(r *http.Request) { r.Header.Set("Content-Type", "text/plain") },
		"sent by another site": func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") },
	} {
		r := s.request("/api/readings", body)
		spoil(r)
		var p problem
		assert.Equal(t, http.StatusForbidden, s.do(r, &p), name)
		assert.Equal(t, "wrong-origin", p.Code, name)
	}
	assert.Equal(t, before, s.revision(), "nothing was written")
}

func TestNothingIsChangedByGet(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	before := s.revision()
	for _, path := range []string{"/api/readings", "/api/undo", "/api/site", "/api/features", "/api/beds", "/api/try", "/api/begin", "/api/storm/stop"} {
		assert.Equal(t, http.StatusNotFound, s.get(path, nil), path)
	}
	assert.Equal(t, before, s.revision())
}

func TestNoPathLeadsOutOfThePage(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	for _, path := range []string{"/../site.toml", "/%2e%2e/site.toml", "/..%2fsite.toml", "/heights.csv", "/site.toml", "/.crossfall/readings.jsonl", "/front/index.html"} {
		assert.Equal(t, http.StatusNotFound, s.get(path, nil), path)
	}
	for _, name := range []string{"../away", "/tmp/away", "..", "", "   "} {
		dir := t.TempDir()
		begun := serve(t, options(dir))
		var p problem
		got := begun.post("/api/begin", map[string]any{"name": name, "units": "m", "example": false}, &p)
		if got == http.StatusOK {
			made, err := os.ReadDir(dir)
			require.NoError(t, err)
			assert.Len(t, made, 1, "%q is made within the folder", name)
		} else {
			assert.Equal(t, "name", p.Field, name)
		}
	}
}

func TestRequestsAreCapped(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	var p problem
	assert.Equal(t, http.StatusRequestEntityTooLarge, s.do(s.request("/api/readings", `{"note":"`+strings.Repeat("x", page.MostBody)+`"}`), &p))
	assert.Equal(t, "too-large", p.Code)
	assert.Equal(t, http.StatusBadRequest, s.do(s.request("/api/readings", `{`+"\x00"), &p))
	assert.Equal(t, http.StatusUnprocessableEntity, s.do(s.request("/api/readings", `{"nonsense":1}`), &p))
}

func TestThePageIsGuardedByItsPolicy(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	answer, err := http.Get(s.url + "/")
	require.NoError(t, err)
	defer answer.Body.Close()
	policy := answer.Header.Get("Content-Security-Policy")
	assert.Contains(t, policy, "default-src 'none'")
	assert.Contains(t, policy, "script-src 'self'")
	assert.NotContains(t, policy, "unsafe")
	assert.Equal(t, "nosniff", answer.Header.Get("X-Content-Type-Options"))
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	assert.NotContains(t, string(text), "<script>", "no script within the page")
	assert.NotContains(t, string(text), "style=", "no style within the page")
	assert.NotContains(t, string(text), "//", "no address elsewhere")
}

// TestFirstPaint holds what is sent before the first screen is there under 200 KB.
func TestFirstPaint(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	sent := 0
	for _, path := range []string{"/", "/style.css", "/app.js", "/api.js", "/dom.js", "/state.js", "/queue.js", "/drawing.js", "/before.js", "/walk.js", "/look.js",
		"/settle.js", "/build.js", "/ground3d.js", "/towns.js", "/icon.svg", "/api/plot", "/api/survey"} {
		r, err := http.NewRequest(http.MethodGet, s.url+path, nil)
		require.NoError(t, err)
		r.Header.Set("Accept-Encoding", "gzip")
		answer, err := http.DefaultTransport.RoundTrip(r)
		require.NoError(t, err)
		body, err := io.ReadAll(answer.Body)
		require.NoError(t, err)
		require.NoError(t, answer.Body.Close())
		require.Equal(t, http.StatusOK, answer.StatusCode, path)
		sent += len(body)
	}
	t.Logf("%d bytes until the first screen", sent)
	assert.Less(t, sent, 200_000)
}

// phone is a device with a memory for cookies.
func phone(t *testing.T) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	return &http.Client{Jar: jar}
}

func TestCodeLetsOneDeviceIn(t *testing.T) {
	opt := options(plotOf(t, "hillside"))
	var codes []string
	opt.Code = page.NewCode(func(code string) { codes = append(codes, code) })
	s := serve(t, opt)

	var p problem
	assert.Equal(t, http.StatusUnauthorized, s.get("/api/plot", &p), "without the code")
	assert.Equal(t, "code-needed", p.Code)

	enter := func(c *http.Client, code string) int {
		r, err := http.NewRequest(http.MethodPost, s.url+"/code", strings.NewReader(url.Values{"code": {code}}.Encode()))
		require.NoError(t, err)
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", s.url)
		answer, err := c.Do(r)
		require.NoError(t, err)
		defer answer.Body.Close()
		return answer.StatusCode
	}
	first, second := phone(t), phone(t)
	require.Equal(t, http.StatusOK, enter(first, codes[0]))
	answer, err := first.Get(s.url + "/api/plot")
	require.NoError(t, err)
	require.NoError(t, answer.Body.Close())
	assert.Equal(t, http.StatusOK, answer.StatusCode)

	assert.Equal(t, http.StatusForbidden, enter(second, codes[0]), "a code is taken once")
	require.Len(t, codes, 2)
	for range 5 {
		assert.Equal(t, http.StatusForbidden, enter(second, "0000 0000"))
	}
	require.Greater(t, len(codes), 2, "a code that was missed too often is given up")
	assert.Equal(t, http.StatusForbidden, enter(second, codes[1]))
	assert.Equal(t, http.StatusOK, enter(second, strings.ReplaceAll(codes[len(codes)-1], " ", "")))
}

func TestThisMachineNeedsNoCode(t *testing.T) {
	opt := options(plotOf(t, "hillside"))
	opt.Code = page.NewCode(func(string) {})
	opt.OwnOpen = true
	s := serve(t, opt)
	assert.Equal(t, http.StatusOK, s.get("/api/plot", nil))
}

package page_test

import (
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"

	"crossfall/cmd/crossfall/internal/page"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/stretchr/testify/require"
)

// served is a page on a folder of the test's own.
type served struct {
	dir, url string
	t        testing.TB
	away     atomic.Bool // the laptop cannot be reached
}

// cut takes the laptop out of reach, and mend brings it back.
func (s *served) cut()  { s.away.Store(true) }
func (s *served) mend() { s.away.Store(false) }

// reach drops every connection while the laptop is out of reach.
func (s *served) reach(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if s.away.Load() {
			panic(http.ErrAbortHandler)
		}
		next.ServeHTTP(w, r)
	})
}

// options are those of a page that keeps its storm in memory.
func options(dir string) page.Options {
	var kept *siting.Storm
	return page.Options{
		Plot: dir, Version: "test",
		Begin: func(dir, name string, units geodata.Units) error {
			if err := os.Mkdir(dir, 0o755); err != nil {
				return err
			}
			site := fmt.Sprintf("name = %q\ncoordinates = \"local\"\nunits = %q\n", name, units)
			header := fmt.Sprintf("name,x (%[1]s),y (%[1]s),z (%[1]s),note\n", units)
			return writeAll(dir, map[string]string{"site.toml": site, "heights.csv": header})
		},
		Example: func(dir string) error { return copyPlot("hillside", dir) },
		Kept:    func(string) *siting.Storm { return kept },
		Keep:    func(_ string, s *siting.Storm) error { kept = s; return nil },
	}
}

func writeAll(dir string, files map[string]string) error {
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// copyPlot copies an example plot into a new folder.
func copyPlot(name, dir string) error {
	return os.CopyFS(dir, os.DirFS(filepath.Join("..", "..", "..", "..", "testdata", name)))
}

// plotOf is a copy of an example plot.
func plotOf(t testing.TB, name string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), name)
	require.NoError(t, copyPlot(name, dir))
	return dir
}

// serve opens a page on a folder, on a port of its own.
func serve(t testing.TB, opt page.Options) *served {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	opt.Hosts = []string{l.Addr().String()}
	server, err := page.New(opt)
	require.NoError(t, err)
	s := &served{dir: opt.Plot, url: "http://" + l.Addr().String(), t: t}
	web := &http.Server{Handler: s.reach(server)}
	go func() { _ = web.Serve(l) }()
	go server.Sweep(t.Context())
	t.Cleanup(func() {
		server.Close()
		_ = web.Close()
	})
	return s
}

// get asks for an address and reads its JSON.
func (s *served) get(path string, into any) int {
	s.t.Helper()
	answer, err := http.Get(s.url + path)
	require.NoError(s.t, err)
	defer answer.Body.Close()
	if into != nil {
		require.NoError(s.t, json.NewDecoder(answer.Body).Decode(into), path)
	}
	return answer.StatusCode
}

// request is a POST as the page's own scripts make it.
func (s *served) request(path, body string) *http.Request {
	s.t.Helper()
	r, err := http.NewRequest(http.MethodPost, s.url+path, strings.NewReader(body))
	require.NoError(s.t, err)
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", s.url)
	return r
}

// post sends a value and reads the answer's JSON.
func (s *served) post(path string, v, into any) int {
	s.t.Helper()
	body, err := json.Marshal(v)
	require.NoError(s.t, err)
	return s.do(s.request(path, string(body)), into)
}

func (s *served) do(r *http.Request, into any) int {
	s.t.Helper()
	answer, err := http.DefaultClient.Do(r)
	require.NoError(s.t, err)
	defer answer.Body.Close()
	if into != nil {
		require.NoError(s.t, json.NewDecoder(answer.Body).Decode(into), r.URL.Path)
	}
	return answer.StatusCode
}

// file is a file of the plot.
func (s *served) file(name string) string {
	s.t.Helper()
	text, err := os.ReadFile(filepath.Join(s.dir, name))
	require.NoError(s.t, err)
	return string(text)
}

// revision is the state of the plot's files.
func (s *served) revision() string {
	var plot struct{ Revision string }
	s.get("/api/plot", &plot)
	return plot.Revision
}

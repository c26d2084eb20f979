package page_test

import (
	"encoding/json"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/page"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/require"
)

// asked are the addresses that are tried with any text: a body of those that
// change something or work something out, a query of the others.
var asked = []string{
	"/api/try", "/api/beds", "/api/site", "/api/features", "/api/readings", "/api/levels", "/api/ties", "/api/undo",
	"/api/done", "/api/acknowledge", "/api/storm/stop",
	"/api/plot", "/api/survey", "/api/ground", "/api/storm", "/api/done", "/api/assessment", "/report", "/plan.svg",
}

// firstQuery is the first of those asked with a query.
const firstQuery = 11

// small is a plot that is worked out in a moment.
var small = map[string]string{
	"site.toml":   "name = \"Small\"\nunits = \"m\"\ncoordinates = \"local\"\n\n[beds]\ncount = 1\n",
	"heights.csv": "name,x (m),y (m),z (m),note\na,0,0,10.00,\nb,6,0,10.20,\nc,6,5,10.71,\nd,0,5,10.48,\ne,3,2.5,10.36,\n",
	"plot.geojson": `{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"kind":"boundary"},` +
		`"geometry":{"type":"Polygon","coordinates":[[[0,0],[6,0],[6,5],[0,5],[0,0]]]}}]}`,
}

// FuzzRequests sends any text to any address. Nothing may be a fault of the
// program; what is refused changes no file; what is taken leaves a plot that can
// be read, as far as its book has come. REVISION stands for the plot's own.
func FuzzRequests(f *testing.F) {
	for which, text := range map[int]string{
		0:  `{"beds":[{"name":"one","centre":[3,2.5],"length_m":2.4,"width_m":1.2,"bearing_degrees":100,"pinned":true}],"arrange":true,"count":2,"most":false,"units":"ft"}`,
		1:  `{"revision":"REVISION","beds":[{"name":"one","centre":[3,2.5],"length_m":2.4,"width_m":1.2,"bearing_degrees":100,"pinned":true}]}`,
		2:  `{"revision":"REVISION","set":{"beds.count":3,"place.latitude":51.5,"ground.thumb":"firm turf or clay subsoil","boards.lengths_m":[2.4,4.8],"name":"New"}}`,
		3:  `{"revision":"REVISION","edits":[{"kind":"tree","name":"oak","was":"","remove":false,"corners":[{"x":"1","y":"2"}],"height":"6","stem":"0.3","evergreen":true}]}`,
		4:  `{"id":"reading-one-of-the-day","name":"","x":"2","y":"1","z":"10.2","note":"by the gate","keep":false}`,
		5:  `{"id":"reading-two-of-the-day","station":"a","back":"1.42","level":"10","x":"0","y":"0","note":""}`,
		6:  `{"id":"reading-six-of-the-day","point":"f","method":"tie","from":"a","to":"b","a":"3","b":"4","side":"left","note":""}`,
		7:  `{"id":"reading-one-of-the-day"}`,
		8:  `{"step":"bed-1","done":true}`,
		9:  `{"revision":"REVISION","caution":"services-unknown","by":"me","date":"2026-01-02"}`,
		13: "nodes=12&units=ft",
		16: "units=ft",
		17: "paper=letter&units=ft",
	} {
		f.Add(uint8(which), text)
	}
	dir := filepath.Join(f.TempDir(), "small")
	require.NoError(f, os.Mkdir(dir, 0o755))
	require.NoError(f, writeAll(dir, small))
	opt := options(dir)
	opt.Hosts = []string{"127.0.0.1:1"}
	server, err := page.New(opt)
	require.NoError(f, err)
	f.Cleanup(server.Close)
	f.Fuzz(func(t *testing.T, which uint8, text string) {
		at := int(which) % len(asked)
		before := filesOf(t, dir)
		answer := httptest.NewRecorder()
		server.ServeHTTP(answer, anyRequest(t, server, at, text))
		if answer.Code >= http.StatusInternalServerError {
			t.Fatalf("%s: %d %s", asked[at], answer.Code, answer.Body)
		}
		kind := answer.Header().Get("Content-Type")
		if strings.HasPrefix(kind, "application/json") && !json.Valid(answer.Body.Bytes()) {
			t.Fatalf("%s: not JSON: %q", asked[at], answer.Body)
		}
		after := filesOf(t, dir)
		if maps.Equal(before, after) {
			return
		}
		if answer.Code >= http.StatusBadRequest {
			t.Fatalf("%s: refused with %d, and files have changed: %q and %q", asked[at], answer.Code, before, after)
		}
		if err := readAfter(dir, asked[at]); err != nil {
			t.Fatalf("%s: taken, and now: %v\n%q", asked[at], err, after)
		}
		require.NoError(t, os.RemoveAll(dir))
		require.NoError(t, os.Mkdir(dir, 0o755))
		require.NoError(t, writeAll(dir, small))
	})
}

// readAfter reads a plot after a request was taken. A line of the level book or a
// tie may wait for one still to come.
func readAfter(dir, address string) error {
	if address == "/api/levels" || address == "/api/ties" {
		_, err := plotfolder.ReadSoFar(dir)
		return err
	}
	_, err := plotfolder.Read(dir, plotfolder.Options{})
	return err
}

// anyRequest is a request with a text, as the page's own scripts would send it.
func anyRequest(t *testing.T, server http.Handler, at int, text string) *http.Request {
	t.Helper()
	from := func(r *http.Request) *http.Request {
		r.Host = "127.0.0.1:1"
		r.Header.Set("Origin", "http://127.0.0.1:1")
		r.Header.Set("Content-Type", "application/json")
		return r
	}
	if at >= firstQuery {
		r := from(httptest.NewRequest(http.MethodGet, asked[at], nil))
		r.URL.RawQuery = text
		return r
	}
	if strings.Contains(text, "REVISION") {
		answer := httptest.NewRecorder()
		server.ServeHTTP(answer, from(httptest.NewRequest(http.MethodGet, "/api/plot", nil)))
		var plot struct{ Revision string }
		require.NoError(t, json.Unmarshal(answer.Body.Bytes(), &plot))
		text = strings.ReplaceAll(text, "REVISION", plot.Revision)
	}
	return from(httptest.NewRequest(http.MethodPost, asked[at], strings.NewReader(text)))
}

// filesOf are the files of a folder that a person writes, and what is in them.
func filesOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range list {
		if e.IsDir() || strings.HasSuffix(e.Name(), ".before") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		files[e.Name()] = string(text)
	}
	return files
}

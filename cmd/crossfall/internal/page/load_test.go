package page_test

import (
	"io"
	"net/http"
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestUnderLoad asks for everything at once from four devices, for two seconds or
// as long as CROSSFALL_LOAD says, such as 60s: nothing is refused, and afterwards
// there are no more goroutines and not much more memory than before.
func TestUnderLoad(t *testing.T) {
	lasts := 2 * time.Second
	if said := os.Getenv("CROSSFALL_LOAD"); said != "" {
		var err error
		lasts, err = time.ParseDuration(said)
		require.NoError(t, err)
	}
	s := serve(t, options(plotOf(t, "hillside")))
	transport := &http.Transport{MaxIdleConnsPerHost: 8}
	client := &http.Client{Transport: transport}
	ask := func(path, body string) time.Duration {
		began := time.Now()
		r, err := http.NewRequest(http.MethodGet, s.url+path, nil)
		if body != "" {
			r = s.request(path, body)
		}
		if !assert.NoError(t, err) {
			return 0
		}
		answer, err := client.Do(r)
		if !assert.NoError(t, err) {
			return 0
		}
		defer answer.Body.Close()
		_, err = io.Copy(io.Discard, answer.Body)
		assert.NoError(t, err)
		assert.Equal(t, http.StatusOK, answer.StatusCode, path)
		return time.Since(began)
	}
	trial := `{"beds":[{"name":"one","centre":[9,15],"length_m":3.6,"width_m":1.2,"bearing_degrees":100,"pinned":true}]}`
	round := []struct{ path, body string }{
		{"/", ""}, {"/app.js", ""}, {"/api/plot", ""}, {"/api/survey", ""}, {"/api/done", ""}, {"/api/try", trial}, {"/api/ground?nodes=20", ""}, {"/api/plot", ""},
	}
	for _, r := range round { // so that what is kept for good is there
		ask(r.path, r.body)
	}
	goroutines, heap := settledDown(transport)

	var mu sync.Mutex
	took := map[string][]time.Duration{}
	var all sync.WaitGroup
	ends := time.Now().Add(lasts)
	for device := range 4 {
		all.Go(func() {
			for i := device; time.Now().Before(ends); i++ {
				r := round[i%len(round)]
				d := ask(r.path, r.body)
				mu.Lock()
				took[r.path] = append(took[r.path], d)
				mu.Unlock()
			}
		})
	}
	all.Wait()
	for path, all := range took {
		slices.Sort(all)
		t.Logf("%-22s %6d times, 95 in 100 within %s", path, len(all), all[len(all)*95/100].Round(10*time.Microsecond))
	}
	after, heapAfter := settledDown(transport)
	assert.LessOrEqual(t, after, goroutines+2, "goroutines")
	assert.Less(t, heapAfter, heap+heap/2+32<<20, "bytes of memory in use")
	assert.False(t, strings.Contains(s.file("features.csv"), "bed,one"), "a trial writes nothing")
}

// settledDown counts goroutines and memory in use when all is quiet.
func settledDown(transport *http.Transport) (goroutines int, heap uint64) {
	transport.CloseIdleConnections()
	time.Sleep(200 * time.Millisecond)
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return runtime.NumGoroutine(), m.HeapAlloc
}

package page_test

import (
	"bufio"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// serveEnv names the plot that this test program serves instead of running its
// tests, so that it can be killed.
const serveEnv = "CROSSFALL_TEST_SERVE"

func TestMain(m *testing.M) {
	if dir := os.Getenv(serveEnv); dir != "" {
		os.Exit(serveUntilKilled(dir))
	}
	os.Exit(m.Run())
}

func serveUntilKilled(dir string) int {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 1
	}
	opt := options(dir)
	opt.Hosts = []string{l.Addr().String()}
	server, err := page.New(opt)
	if err != nil {
		return 1
	}
	fmt.Println(l.Addr())
	_ = http.Serve(l, server)
	return 1
}

// another starts a server of its own process on a plot.
func another(t *testing.T, dir string) (s *served, kill func()) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), serveEnv+"="+dir)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	kill = func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	}
	t.Cleanup(kill)
	address, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	return &served{dir: dir, url: "http://" + strings.TrimSpace(address), t: t}, kill
}

// TestKilledBetweenReadings kills the server fifty times, each time with a reading
// under way: every reading that was told as booked is in the file, once, and those
// that were not are there once when they are sent again.
func TestKilledBetweenReadings(t *testing.T) {
	dir := plotOf(t, "hillside")
	first := serve(t, options(dir))
	before := len(heightRows(t, first))
	times := 50
	if testing.Short() {
		times = 5
	}
	for i := range times {
		s, kill := another(t, dir)
		told := make(chan bool)
		go func() { // the next one is under way when the server dies
			told <- tryReading(s.url, fmt.Sprintf("killed-reading-%03d-b", i), 4+0.2*float64(i))
		}()
		require.True(t, tryReading(s.url, fmt.Sprintf("killed-reading-%03d-a", i), 2+0.2*float64(i)), "reading %d", i)
		kill()
		<-told
		for _, row := range heightRows(t, first) {
			require.GreaterOrEqual(t, len(row), 4, "no row is torn: %q", row)
		}
	}
	s, kill := another(t, dir)
	defer kill()
	for i := range times { // what the devices were not sure of is sent again
		require.True(t, tryReading(s.url, fmt.Sprintf("killed-reading-%03d-a", i), 2+0.2*float64(i)))
		require.True(t, tryReading(s.url, fmt.Sprintf("killed-reading-%03d-b", i), 4+0.2*float64(i)))
	}
	seen := map[string]int{}
	for _, row := range heightRows(t, first)[before:] {
		seen[row[0]]++
	}
	assert.Len(t, seen, 2*times)
	for name, n := range seen {
		assert.Equal(t, 1, n, name)
	}
}

// tryReading sends a reading; true when it was told as booked.
func tryReading(url, id string, x float64) bool {
	body := fmt.Sprintf(`{"id":%q,"name":%q,"x":"%.2f","y":"10","z":"29.2","note":"","keep":true}`, id, id, x)
	r, err := http.NewRequest(http.MethodPost, url+"/api/readings", strings.NewReader(body))
	if err != nil {
		return false
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", url)
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return false
	}
	defer answer.Body.Close()
	return answer.StatusCode == http.StatusOK
}

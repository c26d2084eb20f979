package main

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// smallHeights is a plot that is soon assessed.
const smallHeights = "name,x,y,z\na,0,0,10.0\nb,9,0,10.1\nc,0,7,9.5\nd,9,7,9.6\ne,4,3,9.8\nf,2,6,9.6\n"

// program builds the program once for a test.
func program(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "crossfall")
	out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput()
	require.NoError(t, err, "%s", out)
	return path
}

// plotIn writes the small plot into a folder.
func plotIn(t *testing.T, dir string) string {
	t.Helper()
	plot := filepath.Join(dir, "plot")
	require.NoError(t, os.Mkdir(plot, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(plot, "heights.csv"), []byte(smallHeights), 0o644))
	return plot
}

// ran is what one run left.
type ran struct {
	code     int
	out, err string
}

func runProgram(t *testing.T, stdin string, env []string, args ...string) ran {
	t.Helper()
	c := exec.Command(args[0], args[1:]...)
	var out, errs bytes.Buffer
	c.Stdin, c.Stdout, c.Stderr, c.Env = strings.NewReader(stdin), &out, &errs, env
	err := c.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		require.NoError(t, err)
	}
	return ran{c.ProcessState.ExitCode(), out.String(), errs.String()}
}

// mounted mounts a small file system, or skips the test where that is not allowed.
func mounted(t *testing.T, flags uintptr, options string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, options); err != nil {
		t.Skip("no file system can be mounted here: ", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, 0)) })
	if flags != 0 {
		plotIn(t, dir)
		require.NoError(t, syscall.Mount("tmpfs", dir, "tmpfs", flags|syscall.MS_REMOUNT, options))
	}
	return dir
}

// oneLine asks for one message that names what is wrong.
func oneLine(t *testing.T, r ran, words ...string) {
	t.Helper()
	assert.Equal(t, 1, r.code, r.err)
	assert.Empty(t, r.out)
	assert.Contains(t, r.err, "crossfall: ")
	assert.NotContains(t, r.err, "fault in Crossfall")
	assert.NotContains(t, r.err, "goroutine")
	for _, w := range words {
		assert.Contains(t, r.err, w)
	}
}

func TestOutputThatCannotBeWritten(t *testing.T) {
	bin, plot := program(t), plotIn(t, t.TempDir())
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("there is no device that is always full: ", err)
	}
	defer full.Close()
	for _, args := range [][]string{{"assess", plot}, {"assess", plot, "--json"}, {"runoff", plot}, {"version"}, {"--help"}} {
		c := exec.Command(bin, args...)
		var errs bytes.Buffer
		c.Stdout, c.Stderr = full, &errs
		assert.Error(t, c.Run())
		assert.Equal(t, 1, c.ProcessState.ExitCode(), args)
		assert.Contains(t, errs.String(), "could not write the result", args)
		assert.Contains(t, errs.String(), "no space left", args)
	}
}

func TestDiskFull(t *testing.T) {
	bin, plot := program(t), plotIn(t, t.TempDir())
	dir := mounted(t, 0, "size=8k") // two files
	oneLine(t, runProgram(t, "", nil, bin, "assess", plot, "--report", filepath.Join(dir, "r.html")), "r.html", "no space left")
	oneLine(t, runProgram(t, "", nil, bin, "demo", filepath.Join(dir, "demo")), "no space left")
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left, "nothing half written stays")

	file := filepath.Join(plotIn(t, dir), "heights.csv")
	rows := smallHeights + strings.Repeat("# a page is full of this\n", (4096-len(smallHeights))/25)
	rows += strings.Repeat("#", 4096-len(rows)-1) + "\n"
	require.NoError(t, os.WriteFile(file, []byte(rows), 0o644))
	fill(t, filepath.Join(dir, "filler"))
	oneLine(t, runProgram(t, "g\n5\n5\n9.7\n\n\n", nil, bin, "walk", "--add", filepath.Dir(file)), "heights.csv", "no space left")
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, rows, string(now), "what stood there stays")
}

// fill writes until nothing more fits.
func fill(t *testing.T, path string) {
	t.Helper()
	f, err := os.Create(path)
	require.NoError(t, err)
	for err == nil {
		_, err = f.Write(make([]byte, 512))
	}
	require.ErrorIs(t, err, syscall.ENOSPC)
	_ = f.Close()
}

func TestReadOnlyFolder(t *testing.T) {
	bin := program(t)
	dir := mounted(t, syscall.MS_RDONLY, "size=64k")
	plot := filepath.Join(dir, "plot")
	assert.Equal(t, 0, runProgram(t, "", nil, bin, "assess", plot).code, "reading needs no writing")
	oneLine(t, runProgram(t, "", nil, bin, "assess", plot, "--plan", filepath.Join(dir, "p.svg")), "p.svg", "read-only")
	oneLine(t, runProgram(t, "", nil, bin, "demo", filepath.Join(dir, "demo")), "read-only")
	oneLine(t, runProgram(t, "", nil, bin, "runoff", plot, "--storm", "2y"), "read-only")
	oneLine(t, runProgram(t, "g\n5\n5\n9.7\n\n\n", nil, bin, "walk", "--add", plot), "heights.csv", "read-only")
}

// Killed at any moment, the program leaves each file as it was or whole and new,
// and every reading that it told as booked.
func TestKilledWhileWriting(t *testing.T) {
	if testing.Short() {
		t.Skip("dozens of runs")
	}
	bin := program(t)
	rng := rand.New(rand.NewPCG(11, 4))
	plot := plotIn(t, t.TempDir())
	report := filepath.Join(t.TempDir(), "r.html")
	began := time.Now()
	require.Equal(t, 0, runProgram(t, "", nil, bin, "assess", plot, "--report", report).code)
	takes := time.Since(began)
	whole, err := os.ReadFile(report)
	require.NoError(t, err)
	old := []byte("the report before")
	replaced := 0
	for range 15 {
		require.NoError(t, os.WriteFile(report, old, 0o644))
		killed(t, "", time.Duration(float64(takes)*(0.5+0.7*rng.Float64())), bin, "assess", plot, "--report", report)
		now, err := os.ReadFile(report)
		require.NoError(t, err)
		if bytes.Equal(now, whole) {
			replaced++
			continue
		}
		require.Equal(t, string(old), string(now))
	}
	t.Logf("%d of 15 reports were in place before the kill", replaced)

	file := filepath.Join(plot, "heights.csv")
	answers := strings.Repeat("5\n5\n9.7\n\n\n", 1)
	for range 15 {
		before, err := os.ReadFile(file)
		require.NoError(t, err)
		killed(t, answers, time.Duration(rng.IntN(int(takes))), bin, "walk", "--add", plot)
		now, err := os.ReadFile(file)
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(now, before), "what stood there was changed")
		require.True(t, bytes.HasSuffix(now, []byte("\n")), "a row was torn: %q", now)
	}
	assert.Equal(t, 0, runProgram(t, "", nil, bin, "assess", plot).code, "the plot is still read")
}

// killed starts the program and kills it after a while.
func killed(t *testing.T, stdin string, after time.Duration, args ...string) {
	t.Helper()
	c := exec.Command(args[0], args[1:]...)
	c.Stdin = strings.NewReader(stdin)
	require.NoError(t, c.Start())
	time.AfterFunc(after, func() { _ = c.Process.Kill() })
	_ = c.Wait() // killed or done
}

// Language, decimal comma, a missing home folder and a missing environment change
// no byte.
func TestSurroundingsChangeNothing(t *testing.T) {
	bin, plot := program(t), plotIn(t, t.TempDir())
	plain := runProgram(t, "", []string{"LC_ALL=C", "HOME=" + t.TempDir()}, bin, "assess", plot)
	require.Equal(t, 0, plain.code, plain.err)
	for _, env := range [][]string{{}, {"LC_ALL=de_DE.UTF-8", "LANG=de_DE.UTF-8", "LC_NUMERIC=de_DE"}, {"HOME=/nowhere/at/all"}, {"TZ=Pacific/Kiritimati"}, {"TERM=dumb"}} {
		assert.Equal(t, plain, runProgram(t, "", env, bin, "assess", plot), env)
	}
}

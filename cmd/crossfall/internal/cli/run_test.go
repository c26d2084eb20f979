package cli_test

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// result is what one run left.
type result struct {
	code     int
	out, err string
}

// run runs one command line with the given answers.
func run(t *testing.T, answers string, args ...string) result {
	t.Helper()
	return runContext(t, t.Context(), strings.NewReader(answers), args...)
}

func runContext(t *testing.T, ctx context.Context, in io.Reader, args ...string) result {
	t.Helper()
	var out, err bytes.Buffer
	code := cli.Run(ctx, args, cli.Streams{In: in, Out: &out, Err: &err})
	return result{code, out.String(), err.String()}
}

func TestWrongCommandLines(t *testing.T) {
	for _, c := range []struct {
		args string
		want string // on standard error
	}{
		{"asess", `unknown command "asess": did you mean assess?; see crossfall --help`},
		{"zzzzzz", `unknown command "zzzzzz"; see crossfall --help`},
		{"asess --report x.html", `unknown command "asess": did you mean assess?`},
		{"help demmo", `unknown command "demmo": did you mean demo?`},
		{"assess --jsn", `unknown flag --jsn: did you mean --json?; see crossfall assess --help`},
		{"assess --colour never", `unknown flag --colour: did you mean --color?`},
		{"assess -x", `unknown flag -x`},
		{"assess --report", `--report needs a value`},
		{"assess --units yards", `--units "yards" is not m or ft`},
		{"assess --color red", `--color "red" is not auto, always or never`},
		{"assess --json=perhaps", `invalid argument "perhaps"`},
		{"assess --report heights.csv", `--report "heights.csv" does not end in .html`},
		{"assess --plan plan.txt", `--plan "plan.txt" does not end in .svg, .pdf or .png`},
		{"assess a b", `"b" is one word too many: crossfall assess takes one plot folder or file`},
		{"start", `crossfall start needs one new or empty folder`},
		{"demo", `crossfall demo needs one new or empty folder`},
		{"version now", `"now" is one word too many`},
		{"completion", `crossfall completion needs the name of a shell: bash, zsh, fish, powershell`},
		{"completion bsh", `"bsh" is not the name of a shell: bash, zsh, fish, powershell: did you mean bash?`},
	} {
		t.Run(c.args, func(t *testing.T) {
			r := run(t, "", strings.Fields(c.args)...)
			assert.Equal(t, 2, r.code)
			assert.Empty(t, r.out)
			assert.Contains(t, r.err, c.want)
			assert.Equal(t, 1, strings.Count(r.err, "\n"), "one line: %q", r.err)
			assert.True(t, strings.HasPrefix(r.err, "crossfall: "), r.err)
		})
	}
}

func TestHelpExplainsEveryCommand(t *testing.T) {
	for _, command := range []string{"", "assess", "start", "demo", "completion", "version", "help"} {
		args := strings.Fields(command + " --help")
		r := run(t, "", args...)
		assert.Equal(t, 0, r.code, command)
		assert.Empty(t, r.err, command)
		assert.Contains(t, r.out, "Usage:", command)
		_, examples, _ := strings.Cut(r.out, "Examples:\n")
		assert.Contains(t, examples, "crossfall "+command, command)
	}
	assert.Equal(t, run(t, "", "--help"), run(t, ""))
	assert.Equal(t, run(t, "", "assess", "--help"), run(t, "", "help", "assess"))
}

func TestVersion(t *testing.T) {
	r := run(t, "", "version")
	assert.Equal(t, 0, r.code)
	assert.Regexp(t, `^crossfall version \S+.* go1\.\S+ \w+/\w+\n$`, r.out)
	assert.Equal(t, r.out, run(t, "", "--version").out)
}

func TestCompletionForEveryShell(t *testing.T) {
	for shell, sign := range map[string]string{
		"bash": "complete -o default -F __start_crossfall crossfall", "zsh": "#compdef crossfall",
		"fish": "complete -c crossfall", "powershell": "Register-ArgumentCompleter",
	} {
		r := run(t, "", "completion", shell)
		assert.Equal(t, 0, r.code, shell)
		assert.Contains(t, r.out, sign, shell)
	}
	assert.Contains(t, run(t, "", "__complete", "assess", "--units", "").out, "ft\n")
}

// failing is a standard output that cannot be written.
type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestOutputThatCannotBeWritten(t *testing.T) {
	var err bytes.Buffer
	code := cli.Run(t.Context(), []string{"version"}, cli.Streams{Out: failing{}, Err: &err})
	assert.Equal(t, 1, code)
	assert.Contains(t, err.String(), "could not write the result")
}

// names lists what is in a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

func TestDemoWritesTheExamplePlot(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "example")
	r := run(t, "", "demo", dir)
	require.Equal(t, 0, r.code, r.err)
	assert.Equal(t, []string{"features.csv", "heights.csv", "rain.csv", "site.toml"}, names(t, dir))
	for _, name := range names(t, dir) {
		want, err := os.ReadFile(filepath.Join("../../../../testdata/hillside", name))
		require.NoError(t, err)
		got, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		assert.Equal(t, string(want), string(got), name)
	}
	assert.Contains(t, r.out, "Next: crossfall assess "+dir+"\n")

	spaced := filepath.Join(t.TempDir(), "upper plot")
	assert.Contains(t, run(t, "", "demo", spaced).out, `Next: crossfall assess "`+spaced+"\"\n")
}

func TestNothingIsWrittenOver(t *testing.T) {
	full := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(full, "heights.csv"), []byte("mine"), 0o600))
	for _, command := range []string{"demo", "start"} {
		r := run(t, "", command, full)
		assert.Equal(t, 1, r.code, command)
		assert.Empty(t, r.out, command)
		assert.Contains(t, r.err, "is not empty (it holds heights.csv)", command)
		assert.Equal(t, []string{"heights.csv"}, names(t, full), command)

		r = run(t, "", command, filepath.Join(full, "heights.csv"))
		assert.Equal(t, 1, r.code, command)
		assert.Contains(t, r.err, "it is not a folder", command)

		r = run(t, "", command, filepath.Join(full, "nowhere", "plot"))
		assert.Equal(t, 1, r.code, command)
		assert.Contains(t, r.err, "there is no folder", command)
		assert.Equal(t, []string{"heights.csv"}, names(t, full), command)
	}
}

// An interrupt during the work leaves no report, no result and no passing file.
func TestAssessInterrupted(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "example")
	require.Equal(t, 0, run(t, "", "demo", dir).code)
	ctx, interrupt := context.WithCancel(t.Context())
	interrupt()
	r := runContext(t, ctx, nil, "assess", dir, "--report", filepath.Join(parent, "report.html"))
	assert.Equal(t, 1, r.code)
	assert.Empty(t, r.out)
	assert.Equal(t, "crossfall: stopped; nothing was written\n", r.err)
	assert.Equal(t, []string{"example"}, names(t, parent))
}

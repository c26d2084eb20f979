package plotfolder_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/require"
)

// files are the files of a plot folder by name.
type files map[string]string

// folder writes files into a new folder.
func folder(t testing.TB, fs files) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range fs {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	return dir
}

// plot reads a folder that must be sound.
func plot(t *testing.T, fs files) *geodata.Plot {
	t.Helper()
	p, err := plotfolder.Read(folder(t, fs), plotfolder.Options{})
	require.NoError(t, err)
	return p
}

// faults reads a folder that must be refused.
func faults(t *testing.T, fs files) geodata.Faults {
	t.Helper()
	p, err := plotfolder.Read(folder(t, fs), plotfolder.Options{})
	require.Nil(t, p)
	var out geodata.Faults
	require.True(t, errors.As(err, &out), "%v", err)
	for _, f := range out {
		require.NotEmpty(t, f.Message)
		require.NotEmpty(t, f.Pos.File)
	}
	return out
}

// short tells faults as "code at place: read", problems only.
func short(fs geodata.Faults) (out []string) {
	for _, f := range fs {
		if f.Severity == geodata.Problem {
			out = append(out, fmt.Sprintf("%s at %s: %s", f.Code, f.Pos, f.Read))
		}
	}
	return out
}

// codes lists the codes of faults of a severity.
func codes(fs geodata.Faults, severity geodata.Severity) (out []string) {
	for _, f := range fs {
		if f.Severity == severity {
			out = append(out, f.Code)
		}
	}
	return out
}

// find is the first fault of a code.
func find(t *testing.T, fs geodata.Faults, code string) geodata.Fault {
	t.Helper()
	for _, f := range fs {
		if f.Code == code {
			return f
		}
	}
	require.Fail(t, "there is no fault "+code, "%v", fs)
	return geodata.Fault{}
}

// sound is a file of heights without faults: a square of 20 m with a fall of
// 1 in 20 to the south.
const sound = "name,x (m),y (m),z (m)\na,0,0,29\nb,20,0,29\nc,20,20,30\nd,0,20,30\n"

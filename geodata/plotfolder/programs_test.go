package plotfolder_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// programEnv names the plot that this test program works on as another program,
// instead of running its tests.
const programEnv = "CROSSFALL_TEST_PROGRAM"

func TestMain(m *testing.M) {
	if dir := os.Getenv(programEnv); dir != "" {
		if err := workOn(dir, os.Getpid()); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

const turns = 15

// workOn books readings with ids and without, takes every third back, and counts
// its turns in site.toml, looking anew when another was faster.
func workOn(dir string, program int) error {
	for i := range turns {
		id := fmt.Sprintf("id-%d-%d", program, i)
		if _, err := plotfolder.BookHeight(dir, id, geodata.Site{}, plotfolder.NewReading{Name: id, X: 1, Y: 2, Z: 29}); err != nil {
			return err
		}
		if err := plotfolder.AppendRow(filepath.Join(dir, "heights.csv"), ',', []string{"row-" + id, "1", "2", "29"}); err != nil {
			return err
		}
		if i%3 == 0 {
			if _, err := plotfolder.Unbook(dir, id); err != nil {
				return err
			}
		}
		for count := errors.New("not yet"); count != nil; {
			seen, err := plotfolder.Fingerprint(dir)
			if err != nil {
				return err
			}
			site, err := plotfolder.ReadSite(dir)
			if err != nil {
				return err
			}
			count = plotfolder.EditSite(dir, seen, []plotfolder.Setting{{Key: "beds.count", Value: *site.Beds.Count + 1}})
			if count != nil && !errors.Is(count, plotfolder.ErrChanged) {
				return count
			}
		}
	}
	return nil
}

// Two pages and a terminal on one plot: what any of them was told is there.
func TestProgramsBesideOneAnother(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound, "site.toml": "[beds]\ncount = 1\n"})
	var others []*exec.Cmd
	for range 2 {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), programEnv+"="+dir)
		cmd.Stderr = os.Stderr
		require.NoError(t, cmd.Start())
		others = append(others, cmd)
	}
	require.NoError(t, workOn(dir, 0))
	programs := []int{0}
	for _, cmd := range others {
		require.NoError(t, cmd.Wait())
		programs = append(programs, cmd.Process.Pid)
	}
	text := content(t, filepath.Join(dir, "heights.csv"))
	for _, program := range programs {
		for i := range turns {
			id, booked := fmt.Sprintf("id-%d-%d", program, i), 1
			if i%3 == 0 {
				booked = 0
			}
			assert.Equal(t, booked, strings.Count(text, "\n"+id+",1,2,29\n"), id)
			assert.Equal(t, 1, strings.Count(text, "\nrow-"+id+",1,2,29\n"), id)
		}
	}
	site, err := plotfolder.ReadSite(dir)
	require.NoError(t, err)
	assert.Equal(t, 1+3*turns, *site.Beds.Count)
}

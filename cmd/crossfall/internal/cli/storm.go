package cli

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"

	"github.com/spf13/cobra"
)

// stormWords are the values of --storm.
var stormWords = []string{"2y", "10y", "30y", "all"}

// addStorm gives a command --storm.
func addStorm(cmd *cobra.Command) {
	cmd.Flags().String("storm", "", "play a storm over the plot first, and keep it beside the plot: that met once in so many `YEARS`, 2y, 10y or 30y, or all three")
	complete(cmd, "storm", stormWords...)
}

// stormYears are the return periods that --storm asks for; none without it.
func stormYears(cmd *cobra.Command) ([]float64, error) {
	word, err := cmd.Flags().GetString("storm")
	if err != nil {
		return nil, err
	}
	switch word {
	case "":
		if cmd.Flags().Changed("storm") {
			return nil, wrongUse(cmd, "--storm \"\" is not 2y, 10y, 30y or all")
		}
		return nil, nil
	case "2y":
		return []float64{2}, nil
	case "10y":
		return []float64{10}, nil
	case "30y":
		return []float64{30}, nil
	case "all":
		return []float64{2, 10, 30}, nil
	}
	return nil, wrongUse(cmd, "--storm %q is not 2y, 10y, 30y or all", word)
}

// stormFile is where the storm over a plot is kept: storm.json in its folder, or
// beside a single file NAME.csv the file NAME.storm.json.
func stormFile(path string) string {
	if info, err := os.Stat(path); err == nil && !info.IsDir() {
		return strings.TrimSuffix(path, filepath.Ext(path)) + ".storm.json"
	}
	return filepath.Join(path, "storm.json")
}

// keptStorm is the storm kept beside a plot; nil where there is none, or one
// that cannot be read: then it is as if it had not been run.
func keptStorm(path string) *siting.Storm {
	text, err := plotfolder.ReadKept(stormFile(path))
	if err != nil {
		return nil
	}
	var s siting.Storm
	if json.Unmarshal(text, &s) != nil {
		return nil
	}
	return &s
}

// playStorm plays storms over a plot and keeps them beside it, with those kept
// before that still hold. Interrupted, it keeps what was finished.
func playStorm(ctx context.Context, s Streams, o assessOptions, years []float64) error {
	p, err := plotfolder.Read(o.plot, o.read)
	if err != nil {
		return err
	}
	a, err := siting.Assess(ctx, p, siting.Options{})
	if err != nil {
		return err
	}
	if err := canKeep(stormFile(o.plot)); err != nil {
		return err
	}
	line := newProgress(s)
	defer line.clear()
	began := time.Now()
	storm, err := siting.RunStorm(ctx, p, a, siting.StormOptions{
		Years: years,
		Expect: func(d time.Duration) {
			fmt.Fprintf(s.Err, "crossfall: playing %s over the plot, about %s; what is finished is kept if you stop it\n",
				words.StormsAsked(years), words.Lasting(d))
		},
		Progress: func(done float64) { line.show("storm"+left(began, done), int64(1000*done), 1000) },
	})
	line.clear()
	if storm == nil || len(storm.Storms) == 0 {
		return err
	}
	storm.Keep(keptStorm(o.plot))
	return errors.Join(err, writeStorm(stormFile(o.plot), storm))
}

// left says how long the rest will take.
func left(began time.Time, done float64) string {
	gone := time.Since(began)
	if done < 0.02 || gone < 2*time.Second {
		return ""
	}
	return ", " + words.Lasting(time.Duration(float64(gone)*(1-done)/done)) + " left,"
}

// canKeep tells before minutes of playing that what comes of them could not be
// written.
func canKeep(path string) error {
	var files plotfolder.Staged
	defer files.Discard()
	return files.Add(path, nil)
}

// writeStorm writes the storm whole or not at all.
func writeStorm(path string, storm *siting.Storm) error {
	text, err := json.Marshal(storm)
	if err != nil {
		return err
	}
	var files plotfolder.Staged
	defer files.Discard()
	if err := files.Add(path, append(text, '\n')); err != nil {
		return err
	}
	return files.Commit()
}

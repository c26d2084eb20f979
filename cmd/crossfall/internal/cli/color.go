package cli

import (
	"io"
	"os"
	"slices"

	"github.com/spf13/cobra"
	"golang.org/x/term"
)

// colorWords are the values of --color.
var colorWords = []string{"auto", "always", "never"}

// defaultWidth is the width of a line where there is no terminal, characters.
const defaultWidth = 80

// colored decides, for every output alike, whether text may carry colour.
func colored(cmd *cobra.Command, s Streams, w io.Writer) (bool, error) {
	word, err := cmd.Flags().GetString("color")
	if err != nil {
		return false, err
	}
	if !slices.Contains(colorWords, word) {
		return false, wrongUse(cmd, "--color %q is not auto, always or never", word)
	}
	return mayColor(word, s.env, isTerminal(w)), nil
}

// mayColor obeys always and never; auto wants a terminal that can show colour
// and a user who has not set NO_COLOR.
func mayColor(word string, env func(string) string, terminal bool) bool {
	if word != "auto" {
		return word == "always"
	}
	return terminal && env("NO_COLOR") == "" && env("TERM") != "dumb"
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// width is the width of the terminal behind w, characters.
func width(w io.Writer) int {
	if f, ok := w.(*os.File); ok {
		if columns, _, err := term.GetSize(int(f.Fd())); err == nil && columns > 0 {
			return columns
		}
	}
	return defaultWidth
}

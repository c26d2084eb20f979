package cli

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"crossfall/cmd/crossfall/internal/term"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/spf13/cobra"
)

// nearIDs is the number of ids offered for one that does not exist.
const nearIDs = 6

// allFigures is the word for the ids of all figures, in place of one.
const allFigures = "list"

// why prints the working of one figure, or the ids of all. An id that does not
// exist lists those of the same bed or part, or else the nearest ones.
func why(cmd *cobra.Command, a *siting.Assessment, o assessOptions) error {
	i := slices.IndexFunc(a.Working, func(b siting.Basis) bool { return b.ID == strings.ToLower(o.why) })
	switch {
	case i >= 0:
		return term.Why(cmd.OutOrStdout(), a.Working[i], term.Options{Units: o.units, Width: o.width, Color: o.color})
	case o.why == allFigures:
		for _, b := range a.Working {
			fmt.Fprintln(cmd.OutOrStdout(), b.ID)
		}
		return nil
	}
	return wrongUse(cmd, "there is no figure %q; there are %s", o.why, strings.Join(like(o.why, a.Working), ", "))
}

// like are the ids of a wrong one's bed or part, in their own order; where there
// is none the nearest.
func like(id string, working []siting.Basis) []string {
	part, _, _ := strings.Cut(strings.ToLower(id), ".")
	var all []string
	for _, b := range working {
		if strings.HasPrefix(b.ID, part+".") {
			all = append(all, b.ID)
		}
	}
	if len(all) > 0 {
		return all
	}
	return near(id, working)
}

// near are the ids nearest to a wrong one: first those that hold it or that it
// holds, then those with the fewest letters to change.
func near(id string, working []siting.Basis) []string {
	id = strings.ToLower(id)
	far := func(known string) int {
		if strings.Contains(known, id) || strings.Contains(id, known) {
			return 0
		}
		return geodata.LettersApart(id, known)
	}
	ids := make([]string, len(working))
	for i, b := range working {
		ids[i] = b.ID
	}
	slices.SortStableFunc(ids, func(a, b string) int { return cmp.Compare(far(a), far(b)) })
	return ids[:min(nearIDs, len(ids))]
}

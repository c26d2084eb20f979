package cli

import (
	"cmp"
	"slices"
	"strings"

	"crossfall/cmd/crossfall/internal/term"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/spf13/cobra"
)

// nearIDs is the number of ids offered for one that does not exist.
const nearIDs = 6

// why prints the working of one figure. An id that does not exist lists the
// nearest ones.
func why(cmd *cobra.Command, a *siting.Assessment, o assessOptions) error {
	i := slices.IndexFunc(a.Working, func(b siting.Basis) bool { return b.ID == strings.ToLower(o.why) })
	if i < 0 {
		return wrongUse(cmd, "there is no figure %q; near it are %s", o.why, strings.Join(near(o.why, a.Working), ", "))
	}
	return term.Why(cmd.OutOrStdout(), a.Working[i], term.Options{Units: o.units, Width: o.width, Color: o.color})
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

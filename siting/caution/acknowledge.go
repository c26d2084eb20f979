package caution

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"crossfall/geodata"
)

// Acknowledge marks the cautions that a person has read, by id, in a copy of
// the list; a later entry for the same id takes the place of an earlier one.
// It restores nothing that a caution took away. An id that no caution bears,
// and an entry without a person's name or a date (YYYY-MM-DD), mark nothing
// and are each a fault of Warning severity: the caution may be gone because
// the bed has moved.
func Acknowledge(cautions []Caution, acks []geodata.Acknowledgement) ([]Caution, geodata.Faults) {
	out := slices.Clone(cautions)
	var faults geodata.Faults
	for _, a := range acks {
		if f, ok := faultIn(a, out); ok {
			faults.Add(f)
			continue
		}
		for i := range out {
			if out[i].ID == strings.TrimSpace(a.Caution) {
				out[i].AcknowledgedBy, out[i].AcknowledgedOn = strings.TrimSpace(a.By), a.Date
			}
		}
	}
	return out, faults
}

func faultIn(a geodata.Acknowledgement, cautions []Caution) (geodata.Fault, bool) {
	f := geodata.Fault{Severity: geodata.Warning, Pos: geodata.Pos{File: "site.toml"}}
	want := strings.TrimSpace(a.Caution)
	known := slices.ContainsFunc(cautions, func(c Caution) bool { return c.ID == want })
	_, dated := time.Parse(time.DateOnly, a.Date)
	switch {
	case !known:
		f.Code, f.Read = "acknowledged-unknown-caution", a.Caution
		f.Message = "no caution of this plot has this id, so nothing was acknowledged"
		f.Want = "take the entry out: the plot has no cautions"
		if nearest, ok := nearestID(want, cautions); ok {
			f.Want = fmt.Sprintf("take the entry out, or correct the id: the nearest is %q", nearest)
		}
	case strings.TrimSpace(a.By) == "":
		f.Code, f.Read = "acknowledged-by-nobody", a.Caution
		f.Message, f.Want = "an acknowledgement without a person's name marks nothing", `write by = "your name"`
	case dated != nil:
		f.Code, f.Read = "acknowledged-without-date", a.Date
		f.Message, f.Want = "an acknowledgement without a date marks nothing", `write date = "YYYY-MM-DD"`
	default:
		return geodata.Fault{}, false
	}
	return f, true
}

// nearestID is the id with the fewest changes of a letter from the one
// written; of equals, the first in the alphabet.
func nearestID(want string, cautions []Caution) (string, bool) {
	best, fewest := "", -1
	for _, c := range cautions {
		n := geodata.LettersApart(want, c.ID)
		if fewest < 0 || n < fewest || n == fewest && c.ID < best {
			best, fewest = c.ID, n
		}
	}
	return best, fewest >= 0
}

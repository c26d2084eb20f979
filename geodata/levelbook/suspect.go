package levelbook

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
)

// Suspect is a mistake that would explain a misclosure. It is a place to look,
// not a correction: the book is never changed.
type Suspect struct {
	Kind    string      `json:"kind"` // "step", "digits", "inverted", "exchanged", "largest"
	Setup   int         `json:"setup"`
	Station string      `json:"station"`
	Column  string      `json:"column"`  // "back", "fore" or both
	Read    float64     `json:"read"`    // the reading as booked, metres
	Instead float64     `json:"instead"` // the reading that would close the book, metres; the same where no single one is meant
	Leaves  float64     `json:"leaves"`  // the misclosure that would then be left, metres
	Words   string      `json:"words"`
	At      geodata.Pos `json:"at"`
}

// mostSuspects are told of one section.
const mostSuspects = 5

// booked is one reading that bears on the closing of a section.
type booked struct {
	row   int
	setup int
	fore  bool
	f     Figure
}

// effect is what a change of the reading does to the misclosure.
func (r booked) effect(change float64) float64 {
	if r.fore {
		return -change
	}
	return change
}

func (r booked) column() string {
	if r.fore {
		return "fore"
	}
	return "back"
}

// suspects looks for slips that would bring the misclosure within the
// allowance: two neighbouring digits swapped, a sign for an inverted staff left
// out or too many, backsight and foresight of a set-up exchanged, a whole metre
// or tenth misread (then the set-up with the largest reading comes first to
// mind, for the staff was far up). When nothing fits, the largest reading is
// named (common practice, no source).
func suspects(b Book, list []sight, r run, misclosure, allowance float64) []Suspect {
	readings := bearing(b, list, r)
	if len(readings) == 0 {
		return nil
	}
	h := hunt{b, misclosure, allowance, nil}
	for i, x := range readings {
		h.digits(x)
		h.try(x, "inverted", -x.f.Value, "has the wrong sign for the way up of the staff")
		if i%2 == 0 {
			h.exchanged(x, readings[i+1])
		}
	}
	slices.SortStableFunc(h.found, func(a, b Suspect) int {
		return cmp.Or(cmp.Compare(math.Abs(a.Leaves), math.Abs(b.Leaves)), cmp.Compare(a.At.Line, b.At.Line))
	})
	found := h.found[:min(len(h.found), mostSuspects-1)]
	largest := slices.MaxFunc(readings, func(a, b booked) int {
		return cmp.Or(cmp.Compare(math.Abs(a.f.Value), math.Abs(b.f.Value)), cmp.Compare(b.row, a.row))
	})
	if step, ok := h.step(largest); ok {
		return append([]Suspect{step}, found...)
	}
	if len(found) > 0 {
		return found
	}
	return []Suspect{h.suspect(largest, "largest", largest.f.Value, misclosure,
		fmt.Sprintf("no single slip explains it; begin with set-up %d, whose reading of %.3f m at %s is the largest", largest.setup, largest.f.Value, b.Rows[largest.row].Station))}
}

// bearing lists the backsights and foresights of a section, in pairs.
func bearing(b Book, list []sight, r run) []booked {
	var out []booked
	start, end := (list[0].place+1)/2, list[len(list)-1].setup
	for _, s := range r.setups {
		if s.number > start && s.number <= end && s.fore >= 0 {
			out = append(out, booked{s.back, s.number, false, b.Rows[s.back].Back}, booked{s.fore, s.number, true, b.Rows[s.fore].Fore})
		}
	}
	return out
}

// hunt gathers what would bring a misclosure within its allowance.
type hunt struct {
	book       Book
	misclosure float64
	allowance  float64
	found      []Suspect
}

func (h *hunt) suspect(x booked, kind string, instead, leaves float64, words string) Suspect {
	return Suspect{
		Kind: kind, Setup: x.setup, Station: h.book.Rows[x.row].Station, Column: x.column(),
		Read: x.f.Value, Instead: instead, Leaves: leaves, Words: words, At: h.book.pos(x.row, x.f),
	}
}

// try tests another reading in the place of one; why says how it would have
// come about.
func (h *hunt) try(x booked, kind string, instead float64, why string) {
	leaves := h.misclosure + x.effect(instead-x.f.Value)
	if math.Abs(leaves) > h.allowance || instead == x.f.Value {
		return
	}
	words := fmt.Sprintf("the book closes to %.0f mm if the %ssight of set-up %d at %s, booked as %.3f m, %s and is %.3f m",
		1000*math.Abs(leaves), x.column(), x.setup, h.book.Rows[x.row].Station, x.f.Value, why, instead)
	h.found = append(h.found, h.suspect(x, kind, instead, leaves, words))
}

// digits tries each pair of neighbouring digits the other way round.
func (h *hunt) digits(x booked) {
	count, unit := asWritten(x.f.Value)
	for tens := int64(10); tens <= count && tens <= 1e6; tens *= 10 {
		low, high := count/(tens/10)%10, count/tens%10
		swapped := float64(count+(low-high)*(tens-tens/10)) * unit
		h.try(x, "digits", math.Copysign(swapped, x.f.Value), "has two digits swapped")
	}
}

// asWritten is a reading as a whole number of the smallest unit it was most
// likely written in: millimetres, hundredths or thousandths of a foot.
func asWritten(v float64) (count int64, unit float64) {
	v = math.Abs(v)
	for _, unit := range []float64{0.001, 0.01 * float64(geodata.Foot), 0.001 * float64(geodata.Foot)} {
		if n := math.Round(v / unit); math.Abs(n*unit-v) < 1e-7 {
			return int64(n), unit
		}
	}
	return int64(math.Round(v * 1000)), 0.001
}

// exchanged tries backsight and foresight of one set-up the other way round.
func (h *hunt) exchanged(back, fore booked) {
	leaves := h.misclosure + 2*(fore.f.Value-back.f.Value)
	if math.Abs(leaves) > h.allowance || fore.f.Value == back.f.Value {
		return
	}
	s := h.suspect(back, "exchanged", fore.f.Value, leaves,
		fmt.Sprintf("the book closes to %.0f mm if backsight and foresight of set-up %d, at %s and %s, are exchanged",
			1000*math.Abs(leaves), back.setup, h.book.Rows[back.row].Station, h.book.Rows[fore.row].Station))
	s.Column = "back and fore"
	h.found = append(h.found, s)
}

// step tells whether the misclosure is a whole metre or tenth of one (or of a
// foot, for a book in feet), within the allowance.
func (h *hunt) step(largest booked) (Suspect, bool) {
	_, unit := asWritten(largest.f.Value)
	whole, word := 1.0, "a metre"
	if unit != 0.001 {
		whole, word = float64(geodata.Foot), "a foot"
	}
	for _, part := range []struct {
		size float64
		word string
	}{{whole, word}, {whole / 10, "a tenth of " + word}} {
		left := math.Abs(h.misclosure) - part.size
		if part.size > 2*h.allowance && math.Abs(left) <= h.allowance {
			step := math.Copysign(part.size, h.misclosure)
			instead := largest.f.Value + largest.effect(-step)
			return h.suspect(largest, "step", instead, h.misclosure-step,
				fmt.Sprintf("the misclosure is nearly %s: a figure of the staff was misread; begin with set-up %d, whose reading of %.3f m at %s is the largest",
					part.word, largest.setup, largest.f.Value, h.book.Rows[largest.row].Station)), true
		}
	}
	return Suspect{}, false
}

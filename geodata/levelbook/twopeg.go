package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// PegStand is one stand of a two-peg test: the readings on both pegs and the
// lengths of sight to them, metres.
type PegStand struct{ A, B, ToA, ToB float64 }

// apparent is the height of peg B above peg A as this stand shows it, and how
// much longer the sight to A was than that to B.
func (s PegStand) apparent() (rise, longer float64) { return s.A - s.B, s.ToA - s.ToB }

// PegTest is the outcome of a two-peg test. Lengths are metres.
type PegTest struct {
	True     float64 `json:"true"`     // height of the second peg above the first
	Apparent float64 `json:"apparent"` // the same from the stand with the more unequal sights
	E        float64 `json:"e"`        // rise of the line of sight, metres in a metre; negative when it dips
	Sigma    float64 `json:"sigma"`    // standard deviation of E
	// Unequal is the greatest difference between the sights back and fore of one
	// set-up of the book, of those with both lengths; 0 without such.
	Unequal float64     `json:"unequal"`
	At      geodata.Pos `json:"at"`
}

// Tilted tells whether the test shows more than the errors of its readings: two
// standard deviations, a default of ours.
func (p PegTest) Tilted() bool { return math.Abs(p.E) > 2*p.Sigma }

// leastLonger is how much more unequal the sights of one stand must be than
// those of the other, metres (default of ours).
const leastLonger = 1.0

// TwoPeg finds the error of collimation of a level from two stands: with equal
// sights it cancels, with unequal ones it shows. The usual first stand is half
// way between the pegs and the second beyond one of them on their line, but any
// two stands do whose sights are unequal by different amounts; ok is false when
// they differ by under a metre. This is the two-peg test of the surveying texts
// (common practice).
func TwoPeg(first, second PegStand) (test PegTest, ok bool) {
	rise1, longer1 := first.apparent()
	rise2, longer2 := second.apparent()
	if !(math.Abs(longer2-longer1) >= leastLonger) {
		return PegTest{}, false
	}
	test.E = (rise2 - rise1) / (longer2 - longer1)
	test.True = rise1 - test.E*longer1
	test.Apparent = rise2
	if math.Abs(longer1) > math.Abs(longer2) {
		test.Apparent = rise1
	}
	test.Sigma = 2 * levelReadingSigma / math.Abs(longer2-longer1) // four readings
	return test, true
}

// pegTest takes the two-peg test out of the runs of a book.
func (w *work) pegTest(runs []run) (rest []run) {
	var stands []setup
	for _, r := range runs {
		if r.instrument == TwoPegTest {
			stands = append(stands, r.setups...)
			continue
		}
		rest = append(rest, r)
	}
	if len(stands) == 0 {
		return rest
	}
	test, ok := w.twoStands(stands)
	if !ok {
		return rest
	}
	test.Unequal = w.unequal(rest)
	w.out.PegTest = &test
	if w.opt.Collimation == 0 && test.Tilted() {
		w.opt.Collimation = test.E
	}
	return rest
}

// twoStands works out a test from the stands that were booked for it.
func (w *work) twoStands(stands []setup) (test PegTest, ok bool) {
	at := w.book.pos(stands[0].back, Figure{})
	wrong := func(at geodata.Pos, message, want string) (PegTest, bool) {
		w.faults.Add(geodata.Fault{Code: "two-peg-test", Pos: at, Read: w.book.Rows[stands[0].back].Station, Message: message, Want: want})
		return PegTest{}, false
	}
	const each = "book each stand as a backsight on one peg and a foresight on the other, with back length and fore length"
	if len(stands) != 2 {
		return wrong(at, fmt.Sprintf("a two-peg test has 2 stands, and %d are booked", len(stands)), each)
	}
	var sights [2]PegStand
	for i, s := range stands {
		if s.fore < 0 || len(s.inter) > 0 {
			return wrong(w.book.pos(s.back, Figure{}), "this stand of the two-peg test is not one backsight and one foresight", each)
		}
		a, b := w.book.Rows[s.back], w.book.Rows[s.fore]
		if !a.BackSight.Given || !b.ForeSight.Given {
			return wrong(w.book.pos(s.back, Figure{}), "this stand of the two-peg test has no lengths of sight", each)
		}
		sights[i] = PegStand{a.Back.Value, b.Fore.Value, a.BackSight.Value, b.ForeSight.Value}
		if i == 1 && w.keys[s.back] == w.keys[stands[0].fore] && w.keys[s.fore] == w.keys[stands[0].back] {
			sights[1] = PegStand{sights[1].B, sights[1].A, sights[1].ToB, sights[1].ToA}
		} else if i == 1 && (w.keys[s.back] != w.keys[stands[0].back] || w.keys[s.fore] != w.keys[stands[0].fore]) {
			return wrong(w.book.pos(s.back, Figure{}), "the two stands of the two-peg test are not on the same two pegs", each)
		}
	}
	test, ok = TwoPeg(sights[0], sights[1])
	if !ok {
		return wrong(at, "both stands of the two-peg test have sights that are unequal alike, which shows nothing",
			"stand half way between the pegs once, and close to one of them once")
	}
	test.At = at
	return test, true
}

// unequal is the greatest difference of sights back and fore in one set-up.
func (w *work) unequal(runs []run) (most float64) {
	for _, r := range runs {
		for _, s := range r.setups {
			back := w.book.Rows[s.back].BackSight
			for _, i := range append(s.inter[:len(s.inter):len(s.inter)], s.fore) {
				if i >= 0 && back.Given && w.book.Rows[i].ForeSight.Given {
					most = math.Max(most, math.Abs(back.Value-w.book.Rows[i].ForeSight.Value))
				}
			}
		}
	}
	return most
}

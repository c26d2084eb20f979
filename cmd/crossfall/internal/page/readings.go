package page

import (
	"errors"
	"math"
	"net/http"
	"strconv"
	"strings"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
)

// keyedHeight is one reading as it was keyed in: lengths as people write them,
// bare numbers in the plot's own unit. ID is made by the device, once for each
// reading, so that one sent twice is booked once.
type keyedHeight struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	X    string `json:"x"`
	Y    string `json:"y"`
	Z    string `json:"z"`
	Note string `json:"note"`
	// Keep books a height that is doubted.
	Keep bool `json:"keep"`
}

// bookedView answers a reading.
type bookedView struct {
	Booked bool       `json:"booked"`
	Again  bool       `json:"again"` // it had been booked before
	Name   string     `json:"name,omitempty"`
	Doubt  *doubtView `json:"doubt,omitempty"`
}

// doubtView is what speaks against a reading.
type doubtView struct {
	Said     string       `json:"said"`
	Expected float64      `json:"expected_m"`
	Slips    []slipChoice `json:"slips"`
}

// slipChoice is a height that was likely meant, as it would be keyed in.
type slipChoice struct {
	Text string `json:"text"`
	Said string `json:"said"`
}

// checkID tells whether an id is such as the devices make: enough letters to be
// one of its kind.
func checkID(id string) error {
	strange := func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-') }
	if len(id) < 8 || len(id) > 64 || strings.ContainsFunc(id, strange) {
		return fieldError{"id", "a reading carries an id of 8 to 64 small letters, digits and hyphens"}
	}
	return nil
}

// unitOf is the unit of bare numbers.
func unitOf(site geodata.Site) geodata.Unit {
	if site.Units == string(geodata.FeetAndInch) {
		return geodata.Foot
	}
	return geodata.Metre
}

// lengths parses some fields, and tells of the first that is wrong.
type lengths struct {
	bare geodata.Unit
	err  error
}

func (l *lengths) of(field, text string) float64 {
	if l.err != nil {
		return 0
	}
	v, err := geodata.ParseLength(strings.TrimSpace(text), l.bare)
	if err != nil {
		l.err = fieldError{field, err.Error()}
		return 0
	}
	if math.Abs(v) > farthest {
		l.err = fieldError{field, "that is over 100 km: count from a corner of the plot"}
	}
	return v
}

// farthest is the greatest distance that is taken, m.
const farthest = 100_000

func (s *Server) postReading(w http.ResponseWriter, r *http.Request) {
	var k keyedHeight
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	var out bookedView
	err := s.garden.change(func(dir string) (err error) {
		out, err = book(dir, k)
		return err
	})
	if err != nil {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, out)
}

// book puts one height into the file, unless it is doubted.
func book(dir string, k keyedHeight) (bookedView, error) {
	if err := checkID(k.ID); err != nil {
		return bookedView{}, err
	}
	plot, err := plotfolder.ReadSoFar(dir)
	if err != nil {
		return bookedView{}, err
	}
	l := lengths{bare: unitOf(plot.Site)}
	reading := plotfolder.NewReading{Name: oneLine(k.Name), X: l.of("x", k.X), Y: l.of("y", k.Y), Z: l.of("z", k.Z), Note: oneLine(k.Note)}
	if l.err != nil {
		return bookedView{}, l.err
	}
	if reading.Name == "" {
		reading.Name = "r" + strconv.Itoa(len(plot.Spots)+1)
	}
	if !k.Keep && !keyedBefore(dir, k.ID) {
		if doubt := walk.Challenge(plot, orb.Point{reading.X, reading.Y}, reading.Z); doubt != nil {
			return bookedView{Doubt: viewOfDoubt(doubt, plot.Site)}, nil
		}
	}
	again, err := plotfolder.BookHeight(dir, k.ID, plot.Site, reading)
	return bookedView{Booked: err == nil, Again: again, Name: reading.Name}, err
}

// keyedBefore tells whether a reading is in the file already: then its own height
// is no reason to doubt it.
func keyedBefore(dir, id string) bool {
	keyed, err := plotfolder.Keyed(dir)
	if err != nil {
		return false
	}
	for _, k := range keyed {
		if k.ID == id {
			return true
		}
	}
	return false
}

func viewOfDoubt(d *walk.Doubt, site geodata.Site) *doubtView {
	w := words.Words{Units: geodata.Units(site.Units)}
	v := &doubtView{Said: w.Prose(d.Said), Expected: d.Expected, Slips: []slipChoice{}}
	for _, slip := range d.Slips {
		text := strconv.FormatFloat(slip.Height/float64(unitOf(site)), 'f', 3, 64)
		v.Slips = append(v.Slips, slipChoice{Text: text, Said: slip.Said})
	}
	return v
}

// oneLine is a text without what would break a row.
func oneLine(t string) string {
	t = strings.Join(strings.Fields(t), " ")
	if len(t) > 200 {
		t = strings.ToValidUTF8(t[:200], "")
	}
	return t
}

// undoing names the reading to take back.
type undoing struct {
	ID string `json:"id"`
}

func (s *Server) undo(w http.ResponseWriter, r *http.Request) {
	var u undoing
	if err := take(r, &u); err != nil {
		fail(w, err)
		return
	}
	if err := checkID(u.ID); err != nil {
		fail(w, err)
		return
	}
	var removed string
	err := s.garden.change(func(dir string) (err error) {
		if removed, err = plotfolder.Unbook(dir, u.ID); err != nil {
			return err
		}
		_, err = plotfolder.Unbook(dir, u.ID+placeOfLevel)
		if errors.Is(err, plotfolder.ErrNotKeyed) { // it had no place of its own
			err = nil
		}
		return err
	})
	if err != nil {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, map[string]string{"removed": removed})
}

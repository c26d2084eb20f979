package page

import (
	"net/http"

	"crossfall/geodata/levelbook"
	"crossfall/geodata/plotfolder"
)

// keyedLevel is one line of a level book as it was keyed in: staff readings in
// metres, or in feet where the plot is measured so; empty where there is none.
type keyedLevel struct {
	ID      string `json:"id"`
	Station string `json:"station"`
	Back    string `json:"back"`
	Inter   string `json:"inter"`
	Fore    string `json:"fore"`
	Level   string `json:"level"` // a known height
	X       string `json:"x"`     // where the station is, where it is not tied
	Y       string `json:"y"`
	Note    string `json:"note"`
}

// keyedTie is one tape tie: from two marks, or along a line from one to the other
// and off it.
type keyedTie struct {
	ID     string `json:"id"`
	Point  string `json:"point"`
	Method string `json:"method"` // "tie" or "offset"
	From   string `json:"from"`
	To     string `json:"to"`
	A      string `json:"a"`    // from the first mark, or along the line
	B      string `json:"b"`    // from the second, or off the line, to its left
	Side   string `json:"side"` // of a tie: "left" or "right" of the line between the marks
	Note   string `json:"note"`
}

// placeOfLevel is put behind the id of a line of the level book for the id of its
// place among the heights.
const placeOfLevel = "-at"

// optional parses a length that may be left out.
func (l *lengths) optional(field, text string) *float64 {
	if oneLine(text) == "" || l.err != nil {
		return nil
	}
	v := l.of(field, text)
	return &v
}

func (s *Server) postLevel(w http.ResponseWriter, r *http.Request) {
	var k keyedLevel
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	s.answerBooked(w, func(dir string) (bool, error) { return bookLevel(dir, k) })
}

func (s *Server) postTie(w http.ResponseWriter, r *http.Request) {
	var k keyedTie
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	s.answerBooked(w, func(dir string) (bool, error) { return bookTie(dir, k) })
}

func (s *Server) answerBooked(w http.ResponseWriter, do func(dir string) (again bool, err error)) {
	var again bool
	err := s.garden.change(func(dir string) (err error) {
		again, err = do(dir)
		return err
	})
	if err != nil {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, bookedView{Booked: true, Again: again})
}

func bookLevel(dir string, k keyedLevel) (bool, error) {
	plot, err := plotfolder.ReadSoFar(dir)
	if err != nil {
		return false, err
	}
	if err := checkID(k.ID); err != nil {
		return false, err
	}
	l := lengths{bare: unitOf(plot.Site)}
	line := plotfolder.NewLevel{
		Station: oneLine(k.Station), Note: oneLine(k.Note),
		Back: l.optional("back", k.Back), Inter: l.optional("inter", k.Inter), Fore: l.optional("fore", k.Fore), Level: l.optional("level", k.Level),
	}
	x, y := l.optional("x", k.X), l.optional("y", k.Y)
	switch {
	case l.err != nil:
		return false, l.err
	case line.Station == "":
		return false, fieldError{"station", "name the station"}
	case line.Back == nil && line.Inter == nil && line.Fore == nil:
		return false, fieldError{"inter", "key in a backsight, an intersight or a foresight"}
	case (x == nil) != (y == nil):
		return false, fieldError{"x", "give both x and y, or neither and a tie"}
	}
	if x != nil {
		if _, err := plotfolder.BookPlace(dir, k.ID+placeOfLevel, plot.Site, line.Station, *x, *y); err != nil {
			return false, err
		}
	}
	return plotfolder.BookLevel(dir, k.ID, plot.Site, line)
}

func bookTie(dir string, k keyedTie) (bool, error) {
	plot, err := plotfolder.ReadSoFar(dir)
	if err != nil {
		return false, err
	}
	if err := checkID(k.ID); err != nil {
		return false, err
	}
	l := lengths{bare: unitOf(plot.Site)}
	a, b := l.of("a", k.A), l.of("b", k.B)
	tie := plotfolder.NewTie{
		Point: oneLine(k.Point), Method: levelbook.Method(k.Method), From: oneLine(k.From), To: oneLine(k.To),
		A: a, B: b, Side: k.Side, Note: oneLine(k.Note),
	}
	switch {
	case l.err != nil:
		return false, l.err
	case tie.Point == "":
		return false, fieldError{"point", "name the point"}
	case k.Method != "tie" && k.Method != "offset":
		return false, fieldError{"method", "say tie or offset"}
	case tie.From == "" || tie.To == "" || tie.From == tie.To:
		return false, fieldError{"to", "name two marks"}
	case k.Method == "tie" && k.Side != "left" && k.Side != "right":
		return false, fieldError{"side", "say left or right of the line from the first mark to the second"}
	}
	return plotfolder.BookTie(dir, k.ID, plot.Site, tie)
}

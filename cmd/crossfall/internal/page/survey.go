package page

import (
	"fmt"
	"net/http"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
)

// surveyView is what the readings say so far.
type surveyView struct {
	Revision string       `json:"revision"`
	Count    int          `json:"readings"`
	Ground   []words.Item `json:"ground"`
	Suspects []suspect    `json:"suspects"`
	Next     *nextSpot    `json:"next"` // null where nothing can be said
	Fall     string       `json:"fall_said"`
	Bearing  *float64     `json:"runoff_bearing_degrees"`
}

// suspect is a reading to take again.
type suspect struct {
	Name string    `json:"name"`
	At   orb.Point `json:"at"`
	Said string    `json:"said"`
}

// nextSpot is where the staff should go next, and why.
type nextSpot struct {
	At    orb.Point `json:"at"`
	Place string    `json:"place"`
	Why   string    `json:"why"`
}

// apart is how far the next reading is from every other, m: the same place read
// again tells of the staff, not of the ground.
const apart = 0.75

// enoughToFit is the number of readings from which a ground is fitted.
const enoughToFit = 3

func (s *Server) getSurvey(w http.ResponseWriter, r *http.Request) {
	plot, err := plotfolder.ReadSoFar(s.garden.folder())
	if err != nil {
		fail(w, err)
		return
	}
	units, err := unitsAsked(r, geodata.Units(plot.Site.Units))
	if err != nil {
		fail(w, err)
		return
	}
	v := surveyOf(plot, words.Words{Units: units})
	v.Revision = s.garden.revision()
	write(w, http.StatusOK, v)
}

func surveyOf(plot *geodata.Plot, w words.Words) surveyView {
	v := surveyView{Count: len(plot.Spots), Ground: []words.Item{}, Suspects: []suspect{}}
	survey, err := walk.Look(plot)
	if len(plot.Spots) < enoughToFit || err != nil {
		v.Next = first(plot, w)
		return v
	}
	v.Ground = w.WalkGround(survey)
	v.Fall = w.Prose(survey.FallSaid)
	if survey.Bearing != nil {
		v.Bearing = &survey.Bearing.Value
	}
	for i, item := range w.WalkSuspects(survey) {
		v.Suspects = append(v.Suspects, suspect{Name: item.Name, At: placeOf(plot, survey.Suspects[i].Name), Said: item.Value})
	}
	if survey.Gap != nil && survey.Gap.Away >= apart {
		v.Next = &nextSpot{At: survey.Gap.At, Place: w.Place(survey.Gap.At), Why: w.WalkNext(survey)}
	} else {
		v.Next = first(plot, w)
	}
	return v
}

// first is the next place while there is no ground to judge by.
func first(plot *geodata.Plot, w words.Words) *nextSpot {
	at, away, ok := walk.Farthest(plot)
	if !ok {
		return nil
	}
	why := fmt.Sprintf("Begin near a corner of the plot, at %s.", w.Place(at))
	if len(plot.Spots) > 0 {
		why = fmt.Sprintf("Of all places in the plot %s is farthest from the readings so far: %s.", w.Place(at), w.Units.Length(away))
	}
	return &nextSpot{At: at, Place: w.Place(at), Why: why}
}

func placeOf(plot *geodata.Plot, name string) orb.Point {
	for _, s := range plot.Spots {
		if s.Name == name {
			return s.At
		}
	}
	return orb.Point{}
}

package cli

import (
	"context"
	"errors"
	"fmt"
	"strconv"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
)

// adding takes readings at the terminal.
type adding struct {
	*asker
	file  string        // heights.csv
	plot  *geodata.Plot // the readings so far; its Spots grow
	units geodata.Units
	taken int
}

// addReadings asks for one reading after another. Each is in the file, flushed,
// before the next is asked for; the end of input or an interrupt loses nothing
// that was told as booked.
func addReadings(ctx context.Context, s Streams, o walkOptions) error {
	file, err := plotfolder.HeightsFile(o.plot)
	if err != nil {
		return err
	}
	plot, err := soFar(o)
	if err != nil {
		return explain(s, err)
	}
	if err := plotfolder.CheckAppend(file, plot.Site); err != nil {
		return err
	}
	a := adding{asker: newAsker(ctx, s.In, s.Err), file: file, plot: plot, units: o.units}
	if a.units == "" {
		a.units = geodata.Units(a.plot.Site.Units)
	}
	a.say("Readings are appended to %s. Enter alone at x ends.", file)
	for a.err == nil && a.one() {
	}
	if a.err != nil && !errors.Is(a.err, errAnswersEnded) {
		return fmt.Errorf("%w (readings booked before: %d)", a.err, a.taken)
	}
	a.err = nil
	a.say("Readings booked: %d.", a.taken)
	return nil
}

// soFar is the plot as it stands; one that cannot be read yet, as with fewer than
// three heights, has its wishes only, and nothing is doubted against it.
func soFar(o walkOptions) (*geodata.Plot, error) {
	p, err := plotfolder.Read(o.plot, o.read)
	if err == nil {
		return p, nil
	}
	site, err := plotfolder.ReadSite(o.plot)
	return &geodata.Plot{Site: site}, err
}

// one takes one reading; false at the end.
func (a *adding) one() bool {
	var r plotfolder.NewReading
	var ok bool
	if r.X, ok = a.length("x, to the east", true); !ok {
		return false
	}
	if r.Y, ok = a.length("y, to the north", false); !ok {
		return a.cutShort()
	}
	if r.Z, ok = a.height(orb.Point{r.X, r.Y}); !ok {
		return a.cutShort()
	}
	r.Name = "r" + strconv.Itoa(len(a.plot.Spots)+1)
	a.ask("  name", r.Name, func(answer string) error {
		r.Name = answer
		return nil
	})
	a.ask("  note", "none", func(answer string) error {
		r.Note = answer
		return nil
	})
	if a.err != nil {
		return a.cutShort()
	}
	if err := plotfolder.AppendHeight(a.file, a.plot.Site, r); err != nil {
		a.err = err
		return false
	}
	a.taken++
	a.plot.Spots = append(a.plot.Spots, geodata.SpotHeight{
		Name: r.Name, At: orb.Point{r.X, r.Y}, Height: r.Z, Readings: 1,
	})
	a.say("  booked: %s", r.Name)
	a.tellGround()
	return true
}

// cutShort tells that the reading in hand is lost because the answers ended.
func (a *adding) cutShort() bool {
	fmt.Fprintln(a.out, "\n  not booked: the answers ended before the reading was whole")
	return false
}

// length asks for a distance; false when Enter alone ends, where it may.
func (a *adding) length(question string, mayEnd bool) (metres float64, ok bool) {
	bare := geodata.Metre
	if a.plot.Site.Units == string(geodata.FeetAndInch) {
		bare = geodata.Foot
	}
	for a.err == nil && !ok {
		ended := true
		a.ask(question, "", func(answer string) error {
			ended = false
			v, err := geodata.ParseLength(answer, bare)
			if err != nil {
				return err
			}
			metres, ok = v, true
			return nil
		})
		if ended && (mayEnd || a.err != nil) {
			return 0, false
		}
	}
	return metres, ok
}

// height asks for the height at a place and challenges a doubtful one.
func (a *adding) height(at orb.Point) (metres float64, ok bool) {
	for {
		z, ok := a.length("z, the height", false)
		if !ok {
			return 0, false
		}
		doubt := walk.Challenge(a.plot, at, z)
		if doubt == nil {
			return z, true
		}
		keep := a.choose("  "+doubt.Said, []option{{"again", "key the height in again"}, {"keep", "it is right"}}, "again", "again")
		if a.err != nil {
			return 0, false
		}
		if keep == "keep" {
			return z, true
		}
	}
}

// tellGround says what the ground is like with the new reading.
func (a *adding) tellGround() {
	if survey, err := walk.Look(a.plot); err == nil {
		a.say("  fall so far: %s", survey.FallSaid)
	}
}

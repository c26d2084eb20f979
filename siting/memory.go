package siting

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"sync"

	"crossfall/geodata"
	"crossfall/siting/rain"
	"crossfall/terrain/surface"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
)

// Memory keeps what Assess finds out about a plot that does not depend on where
// its beds are drawn: the fitted ground, the water over it, the simulated
// surfaces. A bed that was moved is then assessed anew without them. It holds
// one plot at a time, the last; anything else that changes, a height, a wish or
// a drawn fence, makes it begin again. The zero value is empty. It may be used
// from several goroutines at once. The hillside and the records of rain must not
// be changed in place.
type Memory struct {
	mu   sync.Mutex
	key  string
	kept *known
}

// known is what does not depend on where the beds are drawn.
type known struct {
	fit    *surface.Fit
	relief reliefOf
	winter *rain.Winter
	bursts [3]rain.Burst
	days   *RainDays
	light  sunlight
	places []Place // wet and cold
	judge  judge   // of another drawing of the same plot, but for its plot

	mu         sync.Mutex
	ways       [][][]orb.Point // see waysOf; nil until asked for
	simulation Simulation      // that they were made with
}

// waysDown are the ways that water takes in simulated surfaces, with how they
// were made.
func (k *known) waysDown(ctx context.Context, j judge, paths []Path, s *Simulation) ([][][]orb.Point, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.ways == nil {
		ways, err := waysOf(ctx, j, paths, s)
		if err != nil {
			return nil, err
		}
		k.ways, k.simulation = ways, *s
	}
	*s = k.simulation
	return k.ways, nil
}

// recall is what is known of a plot, from memory where it is there.
func (m *Memory) recall(ctx context.Context, p *geodata.Plot, b Brief, tell func(stage int)) (*known, error) {
	key, ok := keyOf(p)
	if m == nil || !ok {
		return learn(ctx, p, b, tell)
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept != nil && m.key == key {
		return m.kept, nil
	}
	k, err := learn(ctx, p, b, tell)
	if err == nil {
		m.key, m.kept = key, k
	}
	return k, err
}

// learn finds it out.
func learn(ctx context.Context, p *geodata.Plot, b Brief, tell func(stage int)) (*known, error) {
	fit, err := walk.FitPlot(p)
	if err != nil {
		return nil, groundFault(p, err)
	}
	k := &known{fit: fit, relief: sampleRelief(p, fit, b.Precision)}
	tell(1)
	k.winter = rain.WinterHalf(p.Rain, p.Site.Rain, p.Site.Place.Latitude)
	k.bursts = rain.DesignStorms(p.Rain, p.Site.Rain, p.Site.Place.Latitude)
	k.days = rainDays(p)
	k.light = newSunlight(p, fit, k.relief)
	k.judge = newJudge(p, b, fit, k.burst(), k.relief)
	if k.places, err = k.judge.wetAndCold(ctx, k.relief.grid); err != nil {
		return nil, err
	}
	k.judge.weighing(k.light, k.relief.grid, k.places)
	return k, nil
}

// burst is the storm met once in ten years: the one that edges are judged by.
func (k *known) burst() rain.Burst { return k.bursts[1] }

// keyOf tells plots apart by all but their drawn beds and how many are wished for;
// ok is false for one that cannot be told.
func keyOf(p *geodata.Plot) (key string, ok bool) {
	fixtures := slices.DeleteFunc(slices.Clone(p.Fixtures), func(f geodata.Fixture) bool { return f.Kind == geodata.BedKind })
	wishes := p.Site
	wishes.Beds.Count, wishes.Beds.Most = nil, false
	site, err := json.Marshal(wishes)
	if err != nil { // a figure that is not finite
		return "", false
	}
	north := "unknown"
	if p.Frame.NorthFromTrue != nil {
		north = fmt.Sprint(*p.Frame.NorthFromTrue)
	}
	frame := p.Frame
	frame.NorthFromTrue = nil
	return fmt.Sprintf("%v %s %v %t %v %v %s %p %+v", frame, north, p.Boundary, p.BoundaryDrawn, p.Spots, fixtures, site, p.Hillside, p.Rain), true
}

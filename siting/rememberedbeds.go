package siting

import (
	"slices"
	"sync"

	"crossfall/siting/bed"
	"crossfall/terrain/drainage"

	"github.com/paulmach/orb"
)

// rememberedBeds is the number of beds of which decisions, and of outlines of which
// slopes among frames, are remembered; when there are more, it begins again: a
// default of ours, under 20 megabytes.
const rememberedBeds = 512

// bedJudged is all that a decision hangs on beside the ground, the wishes and what
// else is drawn.
type bedJudged struct {
	bed        bed.Bed
	stormDepth float64
}

// settledBeds remembers the decisions of beds. The zero value is empty; it may be used
// from several goroutines at once. What it gives must not be changed in place.
type settledBeds struct {
	mu   sync.Mutex
	kept map[bedJudged]decision
}

func (m *settledBeds) of(key bedJudged, find func() decision) decision {
	m.mu.Lock()
	d, ok := m.kept[key]
	m.mu.Unlock()
	if ok {
		return d
	}
	d = find()
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept == nil || len(m.kept) >= rememberedBeds {
		m.kept = map[bedJudged]decision{}
	}
	m.kept[key] = d
	return d
}

// amongFrames remembers the slope above a bed with the frames of other beds in the
// way. It holds as long as no frame that came, went or was moved lies on a place at
// which it was asked whether there is one. The zero value is empty; it may be used
// from several goroutines at once.
type amongFrames struct {
	mu   sync.Mutex
	kept map[[4]orb.Point]slopeAmong
}

type slopeAmong struct {
	frames []turningFrame
	asked  []orb.Point
	slope  drainage.RunOn
}

// of is the slope above an outline, from memory where that holds. find follows the
// slope and asks enters of every place on it, one after another.
func (m *amongFrames) of(outline orb.Ring, frames []turningFrame, find func(enters func(orb.Point) bool) drainage.RunOn) drainage.RunOn {
	found := slopeAmong{frames: frames}
	enters := func(q orb.Point) bool {
		found.asked = append(found.asked, q)
		return frameAt(frames, q) >= 0
	}
	if len(outline) < 4 {
		return find(enters)
	}
	key := [4]orb.Point(outline[:4])
	m.mu.Lock()
	before, ok := m.kept[key]
	m.mu.Unlock()
	if ok && before.holds(frames) {
		return before.slope
	}
	found.slope = find(enters)
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept == nil || len(m.kept) >= rememberedBeds {
		m.kept = map[[4]orb.Point]slopeAmong{}
	}
	m.kept[key] = found
	return found.slope
}

// holds is true where none of the frames that are not in both lists lies on a place
// that was asked about.
func (s slopeAmong) holds(frames []turningFrame) bool {
	changed := append(without(s.frames, frames), without(frames, s.frames)...)
	return len(changed) == 0 || !slices.ContainsFunc(s.asked, func(q orb.Point) bool { return frameAt(changed, q) >= 0 })
}

// without are the frames of one list that the other has not.
func without(frames, others []turningFrame) []turningFrame {
	var out []turningFrame
	for _, f := range frames {
		if !slices.ContainsFunc(others, func(o turningFrame) bool { return slices.Equal(o.outline[0], f.outline[0]) }) {
			out = append(out, f)
		}
	}
	return out
}

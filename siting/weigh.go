package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/frame"
	"crossfall/siting/layout"
	"crossfall/siting/soil"
	"crossfall/terrain"
)

// Marks taken off a place for a bed, of layout.FullMarks: defaults of ours. A
// graver class of edge outweighs any gain of fall; ground that the survey does
// not tell counts as two classes, and so does a long side turned further off the
// contour than contourTurn, where the ground falls.
const (
	costClass   = 10.0
	costUnknown = 20.0
	costTurned  = 20.0
	costFall    = 50.0  // for each unit of fall: half a mark for a percent
	costAlong   = 100.0 // more for each unit of fall along the long side
	costRunOn   = 1.0   // for each millimetre of the sheet of water from above, up to mostRunOn
	costDamp    = 10.0  // for a bed wholly on ground likely to stay damp
	costDark    = 1.0   // for each hour of direct sun at the equinox less than a day of it
	costCarry   = 0.1   // for each metre of a barrow's way from the gate or heap
	costClimb   = 1.0   // for each metre up from it
	costCutOff  = 50.0  // where no barrow gets to: more than the gravest edge

	mostRunOn   = 5.0                   // marks
	contourTurn = 15*math.Pi/180 + 1e-6 // directions 15 degrees off it are tried, and not to hang on rounding
	levelFall   = terrain.LevelPercent / 100
)

// marks are what is taken off one place, and why.
type marks struct {
	class, unknown, turned, fall, runOn, damp, dark, carrying float64
	severity                                                  int
	sheet                                                     float64 // of water from above, m
}

func (m marks) total() float64 {
	return layout.FullMarks - m.class - m.unknown - m.turned - m.fall - m.runOn - m.damp - m.dark - m.carrying
}

// weigh gives every place its marks. A place where no bed may be built keeps its
// marks, so that the bed is placed and its refusal told, unless the most beds
// that fit are asked for: then it is none.
func (j judge) weigh() layout.Weigh {
	return func(b bed.Bed) (float64, bool) {
		m, ok := j.marksOf(b)
		if !ok || j.brief.Most && m.severity == frame.DoNotBuild.Severity() {
			return 0, false
		}
		return m.total(), true
	}
}

// marksOf looks a place up in the lattices; ok is false where the ground has no
// gradient. The class of edge is that of the mean fall, or of its upper
// limit where the survey cannot tell it.
func (j judge) marksOf(b bed.Bed) (m marks, ok bool) {
	q := j.quick
	g, ok := q.gradientUnder(b)
	if !ok {
		return m, false
	}
	fall := g.Fall()
	switch se, told := q.errorUnder(b); {
	case !told:
		m.unknown, fall = costUnknown, math.Max(fall, j.general)
	case fall < 3*se:
		fall += j.fit.Quantile * se
	}
	across, along := frame.Parts(fall, float64(b.LongSide), float64(g.Downhill()))
	length, _ := q.above.HeightAt(b.Centre)
	m.sheet = j.sheetAt(b, math.Max(0, length), g.Fall())
	m.severity = j.severityAt(b, fall, across, along, m.sheet)
	m.class = costClass * float64(m.severity)
	m.fall = costFall*fall + costAlong*along
	if g.Fall() >= levelFall && b.OffContour(g) > contourTurn {
		m.turned = costTurned
	}
	m.runOn = math.Min(mostRunOn, costRunOn*m.sheet*1000)
	m.damp = costDamp * q.dampUnder(b)
	if h, known := q.sun.HeightAt(b.Centre); known {
		m.dark = j.brief.SunCounts * costDark * math.Max(0, q.dayLength-h)
	}
	m.carrying = j.brief.CarryingCounts * q.carrying(b.Centre)
	for _, part := range []*float64{&m.fall, &m.runOn, &m.damp, &m.dark, &m.carrying} {
		*part = layout.Told(*part)
	}
	return m, true
}

// The class of edge of a place is that of its falls and its water rounded up to
// steps, so that the many places of like ground are judged once; defaults of ours.
const (
	fallStep  = 0.005
	sheetStep = 0.00025 // m
	aboveStep = 0.25    // m of slope above
)

// likeGround is falls and water in those steps.
type likeGround struct{ fall, across, along, sheet int32 }

// likeSlope is the length of slope above and the fall, in steps.
type likeSlope struct{ above, fall int32 }

// stepsOf is how many steps hold a figure; a millionth of a step over is none, as it
// may be rounding.
func stepsOf(v, step float64) int32 { return int32(math.Ceil(math.Min(v/step, 1e6) - 1e-6)) }

// sheetAt is the depth of the sheet of water that a length of slope above sends on
// to a bed, m.
func (j judge) sheetAt(b bed.Bed, above, fall float64) float64 {
	key := likeSlope{stepsOf(above, aboveStep), stepsOf(fall, fallStep/2)}
	wished := b.Length == j.brief.Length
	if known, ok := j.surveyed.sheet.Load(key); ok && wished {
		return known.(float64)
	}
	depth := soil.RunOnTo(soil.RunOnInput{
		Rate: j.rate, Length: geodata.Exactly(float64(key.above) * aboveStep), Slope: geodata.Exactly(float64(key.fall) * fallStep / 2),
		EdgeLength: b.Length, Cover: j.brief.Cover, Ground: j.brief.Ground,
	}).Depth.Value
	if wished {
		j.surveyed.sheet.Store(key, depth)
	}
	return depth
}

// severityAt is the severity of the class of edge of a bed of the wished size; of
// another size it is judged as it stands.
func (j judge) severityAt(b bed.Bed, fall, across, along, sheet float64) int {
	if b.Length != j.brief.Length || b.Width != j.brief.Width {
		return frame.ClassOf(j.caseFor(b, fall, across, along, sheet, "")).Severity()
	}
	key := likeGround{stepsOf(fall, fallStep), stepsOf(across, fallStep), stepsOf(along, fallStep), stepsOf(sheet, sheetStep)}
	if known, ok := j.surveyed.severity.Load(key); ok {
		return known.(int)
	}
	c := j.caseFor(b, float64(key.fall)*fallStep, float64(key.across)*fallStep, float64(key.along)*fallStep, float64(key.sheet)*sheetStep, "")
	out := frame.ClassOf(c).Severity()
	j.surveyed.severity.Store(key, out)
	return out
}

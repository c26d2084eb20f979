package stormflow

import (
	"errors"
	"fmt"
	"math"
)

// Series is a rate that changes from step to step; after the last step it is 0.
type Series struct {
	Step  float64 // s
	Rates []float64
}

// At is the rate at a time.
func (s Series) At(t float64) float64 {
	if i := int(t / s.Step); len(s.Rates) > 0 && t >= 0 && i < len(s.Rates) {
		return s.Rates[i]
	}
	return 0
}

// next is the end of the step that a time lies in; +Inf after the last.
func (s Series) next(t float64) float64 {
	if len(s.Rates) == 0 {
		return math.Inf(1)
	}
	i := int(t/s.Step) + 1
	end := float64(i) * s.Step
	if end-t <= 1e-9*s.Step {
		end += s.Step
	}
	if i > len(s.Rates) {
		return math.Inf(1)
	}
	return end
}

// Material is what a cell is covered with.
type Material struct {
	Manning      float64 // roughness of sheet flow, s/m^(1/3): 0.001 to 2
	Infiltration GreenAmpt
	Dry          bool // rain does not fall on it: under a roof
}

// Storm is what falls on the ground, and what the ground is covered with.
type Storm struct {
	Rain      Series // m/s, at most MaxRain
	RunOn     Series // m2/s through each metre of the rim that Spec.RunOn opens
	Duration  float64
	Materials []Material
	// Start is the depth on each cell of the spec at the beginning, m; nil: dry.
	Start []float64
	// WeirFactor is the discharge factor of a board's crest; 0: DefaultWeir.
	WeirFactor float64
	// ShearLimits are the limits over which shear is summed, Pa.
	ShearLimits []float64
}

// DefaultWeir is the discharge factor of a thin crest far under its water,
// rounded from Rehbock's 0.602 + 0.083 H/P.
const DefaultWeir = 0.60

// MaxRain is the greatest rate of rain that is played, m/s: 1000 mm/h.
const MaxRain = 1.0 / 3600

// faults are all that is wrong with a storm on this model.
func (s Storm) faults(m *Model) error {
	var all []error
	add := func(format string, a ...any) {
		all = append(all, fmt.Errorf("%w: "+format, append([]any{ErrSpec}, a...)...))
	}
	if !(s.Duration > 0) || s.Duration > 7*86400 {
		add("a duration of %v s", s.Duration)
	}
	s.Rain.faults("rain", MaxRain, add)
	s.RunOn.faults("run-on", 1, add)
	for i, k := range s.Materials {
		g := k.Infiltration
		if !(k.Manning >= 0.001 && k.Manning <= 2) {
			add("material %d has a roughness of %v: 0.001 to 2 can be played", i, k.Manning)
		}
		if !(g.Conductivity >= 0 && g.Conductivity <= 1 && g.Suction >= 0 && g.Suction <= 100 && g.Deficit >= 0 && g.Deficit <= 1) {
			add("material %d takes up water by %+v", i, g)
		}
	}
	for c, in := range m.inside {
		if in && int(m.mat[c]) >= len(s.Materials) {
			add("material %d is on the ground and not among the %d given", m.mat[c], len(s.Materials))
			break
		}
	}
	if s.Start != nil && len(s.Start) != len(m.spec.Ground) {
		add("%d cells hold %d depths", len(m.spec.Ground), len(s.Start))
	}
	for _, h := range s.Start {
		if !(h >= 0 && h <= 100) {
			add("a depth of %v m", h)
			break
		}
	}
	if !(s.WeirFactor >= 0 && s.WeirFactor <= 2) {
		add("a weir factor of %v", s.WeirFactor)
	}
	if len(s.ShearLimits) > maxLimits {
		add("%d limits of shear: %d can be summed", len(s.ShearLimits), maxLimits)
	}
	return errors.Join(all...)
}

func (s Series) faults(name string, most float64, add func(string, ...any)) {
	if len(s.Rates) == 0 {
		return
	}
	if !(s.Step > 0) || math.IsInf(s.Step, 1) {
		add("%s in steps of %v s", name, s.Step)
	}
	for _, r := range s.Rates {
		if !(r >= 0 && r <= most) {
			add("%s of %v: 0 to %g can be played", name, r, most)
			return
		}
	}
}

package levelbook

// Options say how a book is reduced. The zero value works.
type Options struct {
	Instrument Instrument // of runs whose first row names none; default ByLevel
	// Allowance is the misclosure put up with in one set-up, metres; it grows
	// with the root of their number. Default: that of the instrument.
	Allowance float64
	// ByDistance spreads a misclosure by the running distance instead of by
	// set-ups, where the book has the distances.
	ByDistance bool
	// DistributeAnyway spreads a misclosure that is beyond the allowance.
	DistributeAnyway bool
	// Collimation is the rise of the line of sight, metres in a metre; readings
	// with a length of sight are corrected for it. Default: what a two-peg test in
	// the book shows.
	Collimation float64
	SetupSigma  float64 // standard deviation of one set-up, metres; default: that of the instrument
	GroundSigma float64 // standard deviation of the ground under the staff, metres; default DefaultGroundSigma
}

// AssumedLevel is the reduced level, metres, given to the first station of a
// book that has no known level.
const AssumedLevel = 10.0

// resolved fills in the defaults for one run.
func (o Options) resolved(named Instrument) Options {
	if named != "" {
		o.Instrument = named
	}
	if o.Instrument == "" {
		o.Instrument = ByLevel
	}
	if o.Allowance == 0 {
		o.Allowance = o.Instrument.Allowance()
	}
	if o.SetupSigma == 0 {
		o.SetupSigma = o.Instrument.SetupSigma()
	}
	if o.GroundSigma == 0 {
		o.GroundSigma = DefaultGroundSigma
	}
	return o
}

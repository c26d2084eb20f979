package rain

import (
	"math"

	"crossfall/geodata"
)

// WinterFrequency fits the greatest day of each winter half and works its
// return levels by MaximaFrequency, with its refusals. The winters it looked at
// come with it, left out or not.
func (r Record) WinterFrequency(latitude *float64, o FrequencyOptions) (Frequency, []Block, error) {
	blocks := r.WinterHalves(latitude)
	f, err := blockFrequency(blocks, "winters", o)
	return f, blocks, err
}

// YearFrequency does the same for the greatest day of each hydrological year.
func (r Record) YearFrequency(latitude *float64, o FrequencyOptions) (Frequency, []Block, error) {
	blocks := r.Years(latitude)
	f, err := blockFrequency(blocks, "years", o)
	return f, blocks, err
}

func blockFrequency(blocks []Block, words string, o FrequencyOptions) (Frequency, error) {
	x := Maxima(blocks)
	f, err := MaximaFrequency(x, o)
	if err != nil {
		return f, err
	}
	if left := len(blocks) - len(x); left > 0 {
		f.note("%d of %d %s were left out: too few of their days were read", left, len(blocks), words)
	}
	return f, nil
}

// PeakFrequency fits the storms over a threshold (Peaks) and works their return
// levels by PeaksFrequency, with its refusals. The length of the record is the
// days read, 365.25 to the year, so that missing days thin no storms out.
func (r Record) PeakFrequency(threshold float64, apart int, o FrequencyOptions) (Frequency, []Peak, error) {
	peaks := r.Peaks(threshold, apart)
	x := make([]float64, len(peaks))
	for i, p := range peaks {
		x[i] = p.MM
	}
	f, err := PeaksFrequency(x, threshold, float64(r.Read())/365.25, o)
	return f, peaks, err
}

// Sums are the depths of so many days in a row, each at its last day; not a
// number where one of them was not read. Under two days it is the record.
func (r Record) Sums(days int) Record {
	if days < 2 {
		return r
	}
	out := Record{First: r.First, MM: make([]float64, len(r.MM))}
	for i := range r.MM {
		out.MM[i] = math.NaN()
		if i < days-1 {
			continue
		}
		out.MM[i] = 0
		for _, v := range r.MM[i-days+1 : i+1] {
			out.MM[i] += v
		}
	}
	return out
}

// DayFrequency is how rare which day of rain is, by three ways of counting that
// stand beside each other.
type DayFrequency struct {
	// Winters are the greatest days of winter halves, Years those of
	// hydrological years: a return period of T is a chance of 1 in T each
	// winter or year.
	Winters, Years Frequency
	// Storms are all storms over a threshold, whatever the season: a return
	// period of T is once in T years on average. Nil where they are too few;
	// then StormsWhy says so.
	Storms    *Frequency
	StormsWhy string
}

// FrequencyOfDays works the return levels of the daily record of r. Without a
// record, or with fewer than ten winters or years of it, it is ErrTooFew, and
// the refusal says what to give instead.
func FrequencyOfDays(r geodata.Rain, latitude *float64, o FrequencyOptions) (DayFrequency, error) {
	if r.Daily == nil {
		return DayFrequency{}, tooFew("no daily record")
	}
	record := Record(*r.Daily)
	var d DayFrequency
	var err error
	if d.Winters, _, err = record.WinterFrequency(latitude, o); err != nil {
		return DayFrequency{}, err
	}
	if d.Years, _, err = record.YearFrequency(latitude, o); err != nil {
		return DayFrequency{}, err
	}
	storms, _, err := record.PeakFrequency(record.Threshold(), stormsApart, o)
	if err != nil {
		d.StormsWhy = err.Error()
		return d, nil
	}
	d.Storms = &storms
	return d, nil
}

// Peaks over a threshold: as many days over it in a year as leave 1.5 to 4
// storms, and the days that part two storms; common practice, no source.
const (
	daysOverAYear = 3
	stormsApart   = 2
)

// Threshold is the depth, mm, that three days a year pass on average.
func (r Record) Threshold() float64 {
	return r.greatest(int(float64(daysOverAYear) * float64(r.Read()) / 365.25))
}

package rain

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
	f.note("a day read at a fixed hour misses part of the greatest 24 hours: these are %.2f times as much on average", fixedDay)
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

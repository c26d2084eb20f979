package rain

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"crossfall/geodata"
)

// Record is a daily record, one place for each day from the first to the last.
// Missing days, which are not a number, are never taken as dry.
type Record geodata.DailyRain

const dayLength = 24 * time.Hour

// index is the place of a date, under 0 or past the end outside the record.
func (r Record) index(date time.Time) int { return int(date.Sub(r.First) / dayLength) }

// date is the day at a place.
func (r Record) date(i int) time.Time { return r.First.AddDate(0, 0, i) }

// Read is the number of days that have a reading.
func (r Record) Read() int {
	n := 0
	for _, v := range r.MM {
		if !math.IsNaN(v) {
			n++
		}
	}
	return n
}

// Block is a hydrological year or the winter half of one.
type Block struct {
	From, To time.Time // first and last day
	Days     int       // in the block
	Read     int       // of them with a reading
	Greatest float64   // mm, greatest day read; 0 where none was read
	On       time.Time // day of the greatest, the first of equals
	Total    float64   // mm, sum of the days read
	Counted  bool      // true when enough days were read
	Why      string    // in words, where it does not count
}

// leastDaysRead are the days that must be read in a year of maxima: common
// practice. A winter half must have the same share of its days, 90 %.
const leastDaysRead = 330

// Years are the hydrological years that the record touches, in order: October
// to September north of the equator, April to March south of it (latitude in
// degrees, north positive; October when it is nil), so that no winter is cut
// in two. A year counts with 330 or more days read, or with all of its winter
// half, which is when the ground is wet.
func (r Record) Years(latitude *float64) []Block {
	return r.blocks(latitude, 12, func(b Block) bool {
		if b.Read >= leastDaysRead {
			return true
		}
		w := r.block(b.From, b.From.AddDate(0, 6, 0))
		return w.Read == w.Days
	})
}

// WinterHalves are the winter halves that the record touches, in order: October
// to March north of the equator, April to September south of it (October when
// latitude is nil). A winter counts with 330/365 of its days read, a default of
// ours after the rule for whole years.
func (r Record) WinterHalves(latitude *float64) []Block {
	return r.blocks(latitude, 6, func(b Block) bool { return b.Read*365 >= b.Days*leastDaysRead })
}

// blocks cuts the record into blocks of so many months, one a year, from the
// month in which the winter half begins.
func (r Record) blocks(latitude *float64, months int, enough func(Block) bool) []Block {
	if len(r.MM) == 0 {
		return nil
	}
	begin := time.Month(northWinter[0] + 1)
	if latitude != nil && *latitude < 0 {
		begin = time.Month(southWinter[0] + 1)
	}
	end := r.date(len(r.MM)) // the day after
	var out []Block
	for year := r.First.Year() - 1; year <= end.Year(); year++ {
		from := time.Date(year, begin, 1, 0, 0, 0, 0, time.UTC)
		to := from.AddDate(0, months, 0)
		if !to.After(r.First) || !from.Before(end) {
			continue
		}
		b := r.block(from, to)
		b.Counted = enough(b)
		if !b.Counted {
			b.Why = fmt.Sprintf("only %d of its %d days were read", b.Read, b.Days)
		}
		out = append(out, b)
	}
	return out
}

// block sums up the days from one to before another.
func (r Record) block(from, before time.Time) Block {
	b := Block{From: from, To: before.AddDate(0, 0, -1), Days: int(before.Sub(from) / dayLength)}
	for i := max(0, r.index(from)); i < min(len(r.MM), r.index(before)); i++ {
		v := r.MM[i]
		if math.IsNaN(v) {
			continue
		}
		if b.Read == 0 || v > b.Greatest {
			b.Greatest, b.On = v, r.date(i)
		}
		b.Read++
		b.Total += v
	}
	return b
}

// Maxima are the greatest days of the blocks that count, mm, in order.
func Maxima(blocks []Block) []float64 {
	var out []float64
	for _, b := range blocks {
		if b.Counted {
			out = append(out, b.Greatest)
		}
	}
	return out
}

// Peak is the greatest day of one storm.
type Peak struct {
	Date time.Time
	MM   float64
	Days int // days over the threshold in the storm
}

// Peaks are the storms over a threshold, mm, in order of date: days over it
// belong to one storm until so many days in a row are not over it (runs
// declustering, Coles 2001, section 5.3.2; one to three days are common
// practice, under one is taken as one). The first of equal days is the peak. A
// missing day parts storms as a dry one does, so a storm in which the gauge was
// not read for so long counts twice.
func (r Record) Peaks(threshold float64, apart int) []Peak {
	apart = cmp.Or(max(apart, 0), 1)
	var out []Peak
	last := -1
	for i, v := range r.MM {
		if !(v > threshold) {
			continue
		}
		if last < 0 || i-last > apart {
			out = append(out, Peak{Date: r.date(i), MM: v})
		}
		p := &out[len(out)-1]
		if v > p.MM {
			p.Date, p.MM = r.date(i), v
		}
		p.Days++
		last = i
	}
	return out
}

// greatest is the depth, mm, that so many days of the record pass; 0 where it
// has no more days with rain than that.
func (r Record) greatest(days int) float64 {
	wet := make([]float64, 0, len(r.MM)/2)
	for _, v := range r.MM {
		if v > 0 {
			wet = append(wet, v)
		}
	}
	if len(wet) <= days {
		return 0
	}
	slices.Sort(wet)
	return wet[len(wet)-1-days]
}

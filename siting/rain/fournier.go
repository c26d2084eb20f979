package rain

import (
	"fmt"
	"math"
	"time"
)

// Fournier are the indices of how unevenly the rain of a year falls.
type Fournier struct {
	Annual   float64 // mm
	Modified float64 // mm: sum of the squares of the months over the year (Arnoldus 1980)
	Plain    float64 // mm: square of the wettest month over the year (Fournier 1960)
}

// FournierOf works the indices from twelve depths, mm, January first; a year
// without rain and other than twelve depths are ErrRange. Mean months give less
// than the mean over single years (FournierYears), since they even years out.
func FournierOf(months []float64) (Fournier, error) {
	if !monthsOK(months) {
		return Fournier{}, fmt.Errorf("%d monthly depths, or one that is not 0 or more: %w", len(months), ErrRange)
	}
	var f Fournier
	wettest, squares := 0.0, 0.0
	for _, m := range months {
		f.Annual += m
		squares += m * m
		wettest = math.Max(wettest, m)
	}
	if f.Annual == 0 {
		return Fournier{}, fmt.Errorf("a year without rain: %w", ErrRange)
	}
	f.Modified, f.Plain = squares/f.Annual, wettest*wettest/f.Annual
	return f, nil
}

// FournierYears is the mean of the indices of single calendar years; no years
// is ErrTooFew.
func FournierYears(years [][]float64) (Fournier, error) {
	if len(years) == 0 {
		return Fournier{}, fmt.Errorf("no whole year: %w", ErrTooFew)
	}
	var sum Fournier
	for _, y := range years {
		f, err := FournierOf(y)
		if err != nil {
			return Fournier{}, err
		}
		sum.Annual += f.Annual
		sum.Modified += f.Modified
		sum.Plain += f.Plain
	}
	n := float64(len(years))
	return Fournier{sum.Annual / n, sum.Modified / n, sum.Plain / n}, nil
}

// Class says in words how erosive a modified index is (classes of Arnoldus, as
// documented with the R package ClimInd).
func (f Fournier) Class() string {
	switch {
	case f.Modified < 60:
		return "very low"
	case f.Modified < 90:
		return "low"
	case f.Modified < 120:
		return "moderate"
	case f.Modified <= 160:
		return "high"
	}
	return "very high"
}

// CalendarYears are the monthly depths of the calendar years of which every
// month was read for nine days in ten or more, a default of ours. The month's
// depth is raised by its days over the days read.
func (r Record) CalendarYears() [][]float64 {
	if len(r.MM) == 0 {
		return nil
	}
	var out [][]float64
	for year := r.First.Year(); year <= r.date(len(r.MM)-1).Year(); year++ {
		months := make([]float64, 0, 12)
		for m := time.January; m <= time.December; m++ {
			from := time.Date(year, m, 1, 0, 0, 0, 0, time.UTC)
			if b := r.block(from, from.AddDate(0, 1, 0)); 10*b.Read >= 9*b.Days {
				months = append(months, b.Total*float64(b.Days)/float64(b.Read))
			}
		}
		if len(months) == 12 {
			out = append(out, months)
		}
	}
	return out
}

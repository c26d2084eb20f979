package rain_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Greatest days of south-west England (data of Coles 2001). A parametric
// bootstrap of the L-moment fit with 2000 samples, done apart from this
// program, gave 95 % bands of 57 to 76 mm for ten years and 74 to 147 for 100;
// the fit itself and Gumbel beside it are in TestReturnLevel.
func TestMaximaFrequency(t *testing.T) {
	x := column(t, "southwest_england.csv", 1)
	f, err := rain.MaximaFrequency(x, rain.FrequencyOptions{Years: []float64{2, 10, 100, 192, 193}, Samples: 4999})
	require.NoError(t, err)
	require.Len(t, f.Levels, 5)
	ten, hundred := f.Levels[1], f.Levels[2]
	assert.InDelta(t, 65.81, ten.Depth.Value, 0.02)
	assert.InDelta(t, 57, ten.Depth.Low, 1)
	assert.InDelta(t, 76, ten.Depth.High, 1)
	// 40.502015 + 9.567770 (exp(0.140192 x 4.600149) - 1)/0.140192
	assert.InDelta(t, 102.321, hundred.Depth.Value, 2e-3)
	assert.InDelta(t, 74, hundred.Depth.Low, 3)
	assert.InDelta(t, 147, hundred.Depth.High, 5)
	assert.InDelta(t, 66.101, ten.Gumbel, 6e-4)
	assert.InDelta(t, 92.151, hundred.Gumbel, 6e-4)
	for _, l := range f.Levels {
		inOrder := []float64{l.Depth.Low, l.Low80, l.Depth.Value, l.High80, l.Depth.High}
		assert.True(t, slices.IsSorted(inOrder), "%v", inOrder)
	}
	assert.False(t, f.Levels[3].Extrapolated, "192 years is four times 48")
	assert.True(t, f.Levels[4].Extrapolated)
	assert.Len(t, f.Notes, 1)
	assert.Contains(t, f.Model, "generalised extreme value")
}

// The 80 % band of one level over samples is 2 x 1.2816 standard errors wide
// where the spread is near normal: for the Gumbel ten-year level by L-moments
// the variance is scale^2/n (1.1128 + 0.4574 y + 0.8046 y^2) (Phien 1987,
// Journal of Hydrology 90, from memory), y = 2.2504.
func TestGumbelBandAgainstPhien(t *testing.T) {
	parent := rain.GEV{Location: 40, Scale: 11}
	x := make([]float64, 19)
	for i := range x {
		x[i] = parent.Quantile((float64(i) + 0.56) / 19.12)
	}
	f, err := rain.MaximaFrequency(x, rain.FrequencyOptions{Years: []float64{10}, Samples: 9999})
	require.NoError(t, err)
	y := -math.Log(-math.Log(0.9))
	se := f.Maxima.Scale * math.Sqrt((1.1128+0.4574*y+0.8046*y*y)/19)
	l := f.Levels[0]
	assert.InDelta(t, 2*1.2816*se, l.High80-l.Low80, 0.05*se)
	assert.InDelta(t, 2*1.9600*se, l.Depth.High-l.Depth.Low, 0.10*se)
}

func TestMaximaFrequencyByLength(t *testing.T) {
	x := column(t, "southwest_england.csv", 1)
	_, err := rain.MaximaFrequency(x[:9], rain.FrequencyOptions{})
	require.ErrorIs(t, err, rain.ErrTooFew)
	assert.Contains(t, err.Error(), "9 maxima")
	for n, model := range map[int]string{10: "Gumbel", 19: "Gumbel", 20: "generalised extreme value"} {
		f, err := rain.MaximaFrequency(x[:n], rain.FrequencyOptions{})
		require.NoError(t, err)
		assert.Contains(t, f.Model, model)
		assert.Equal(t, n < 20, f.Short)
		assert.Len(t, f.Levels, 5)
	}
}

// Uccle, 10 minutes (Sneyers 1977): a shape of about -0.4 means a bound a
// little above the greatest of 35 years, so it is held and said.
func TestMaximaFrequencyHoldsTheShape(t *testing.T) {
	f, err := rain.MaximaFrequency(column(t, "uccle.csv", 3), rain.FrequencyOptions{})
	require.NoError(t, err)
	assert.Equal(t, -0.30, f.Maxima.Shape)
	assert.Contains(t, f.Model, "shape held")
	assert.Contains(t, f.Notes[0], "upper bound")
	last := f.Levels[len(f.Levels)-1]
	assert.Greater(t, last.Gumbel, last.Depth.Value, "Gumbel stands beside it")
	// the R package evd: 8.655, 3.079, -0.387 by maximum likelihood, not held
	assert.InDelta(t, 8.655+3.079*(1-math.Pow(-math.Log(0.99), 0.387))/0.387, last.Likelihood.Value, 0.01)
}

func TestFrequencyIsTheSameEachTime(t *testing.T) {
	x := column(t, "southwest_england.csv", 1)
	a, err := rain.MaximaFrequency(x, rain.FrequencyOptions{})
	require.NoError(t, err)
	b, err := rain.MaximaFrequency(x, rain.FrequencyOptions{})
	require.NoError(t, err)
	assert.Equal(t, a, b)
	c, err := rain.MaximaFrequency(x, rain.FrequencyOptions{Seed: 1})
	require.NoError(t, err)
	assert.NotEqual(t, a.Levels, c.Levels, "another seed draws other samples")
	assert.Equal(t, a.Maxima, c.Maxima)
}

// passedOnce is the return period of annual maxima of a level passed once in
// so many years on average (Langbein 1949).
func passedOnce(years float64) float64 { return 1 / (1 - math.Exp(-1/years)) }

// Daily rain over 30 mm (Coles 2001, section 4.4.1): 106.3 mm once in 100
// years with 365 days to the year, profile-likelihood interval about 81.6 to
// 185.7 (from memory). A bootstrap band is not the same interval, but must lie
// likewise: far to the right, and wider above than below. The standard error by
// the delta method is 20.84, the band by it 65.5 to 147.2. By L-moments the
// levels are 66.091 and 107.997.
func TestPeaksFrequency(t *testing.T) {
	f, err := rain.PeaksFrequency(over30(t), 30, 17531/365.0, rain.FrequencyOptions{Years: []float64{passedOnce(10), passedOnce(100)}})
	require.NoError(t, err)
	assert.InDelta(t, 65.952, f.Levels[0].Likelihood.Value, 2e-3)
	assert.InDelta(t, 106.328, f.Levels[1].Likelihood.Value, 2e-3)
	assert.InDelta(t, 65.5, f.Levels[1].Likelihood.Low, 0.1)
	assert.InDelta(t, 147.2, f.Levels[1].Likelihood.High, 0.1)
	assert.InDelta(t, 66.091, f.Levels[0].Depth.Value, 1e-3)
	assert.InDelta(t, 107.997, f.Levels[1].Depth.Value, 1e-3)
	assert.InDelta(t, 152*365.0/17531, f.PerYear, 1e-12)
	d := f.Levels[1].Depth
	assert.True(t, d.Low > 65 && d.Low < 85, "%v", d)
	assert.True(t, d.High > 140 && d.High < 200, "%v", d)
	assert.Greater(t, d.High-d.Value, d.Value-d.Low)
	assert.Empty(t, f.Notes)
}

func TestFrequencyRefuses(t *testing.T) {
	x, peaks := column(t, "southwest_england.csv", 1), over30(t)
	bad := slices.Clone(x)
	bad[3] = -1
	_, err := rain.MaximaFrequency(bad, rain.FrequencyOptions{})
	assert.ErrorIs(t, err, rain.ErrRange)
	for _, o := range []rain.FrequencyOptions{{Years: []float64{1}}, {Years: []float64{math.NaN()}}, {Samples: 998},
		{Samples: -1}, {Samples: 100_001}} {
		_, err = rain.MaximaFrequency(x, o)
		assert.ErrorIs(t, err, rain.ErrRange, "%+v", o)
		_, err = rain.PeaksFrequency(peaks, 30, 48, o)
		assert.ErrorIs(t, err, rain.ErrRange, "%+v", o)
	}
	_, err = rain.PeaksFrequency(peaks, 30, 9.9, rain.FrequencyOptions{})
	assert.ErrorIs(t, err, rain.ErrTooFew)
	_, err = rain.PeaksFrequency(peaks[:19], 30, 48, rain.FrequencyOptions{})
	assert.ErrorIs(t, err, rain.ErrTooFew)
	_, err = rain.PeaksFrequency(peaks, 30.2, 48, rain.FrequencyOptions{})
	assert.ErrorIs(t, err, rain.ErrRange, "peaks at the threshold")
	_, err = rain.PeaksFrequency(peaks, math.NaN(), 48, rain.FrequencyOptions{})
	assert.ErrorIs(t, err, rain.ErrRange)
	_, err = rain.PeaksFrequency(peaks, 30, 400, rain.FrequencyOptions{})
	assert.ErrorIs(t, err, rain.ErrRange, "less than one peak in two years")
}

func ExampleMaximaFrequency() {
	f, err := rain.MaximaFrequency([]float64{
		44.5, 43.2, 38.1, 39.1, 32.3, 25.4, 33.0, 32.5, 48.5, 34.3,
		45.7, 35.3, 76.7, 34.0, 86.6, 48.5, 59.4, 53.3, 30.5, 42.7,
	}, rain.FrequencyOptions{Years: []float64{10}})
	if err != nil {
		fmt.Println(err)
		return
	}
	d := f.Levels[0].Depth
	fmt.Printf("%.0f mm in a day, 95 %% band about %.0f to %.0f\n", d.Value, d.Low, d.High)
	// Output:
	// 63 mm in a day, 95 % band about 49 to 80
}

// A daily record of 50 years to return levels with their bands.
func BenchmarkDailyRecord(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 2))
	r := rain.Record{First: date(1970, 10, 1), MM: make([]float64, 18262)}
	for i := range r.MM {
		r.MM[i] = 4 * rng.ExpFloat64() * rng.ExpFloat64()
	}
	b.Run("years=50/samples=1000", func(b *testing.B) {
		for b.Loop() {
			_, _, err := r.YearFrequency(nil, rain.FrequencyOptions{Samples: 1000})
			require.NoError(b, err)
		}
	})
	daily := geodata.DailyRain(r)
	b.Run("storms of winters and years/years=50/samples=1000", func(b *testing.B) {
		for b.Loop() {
			_, err := rain.FrequencyOfDays(geodata.Rain{Daily: &daily}, nil, rain.FrequencyOptions{Samples: 1000})
			require.NoError(b, err)
		}
	})
	b.Run("design storms/years=50", func(b *testing.B) {
		for b.Loop() {
			rain.DesignStorms(geodata.Rain{Daily: &daily}, geodata.RainWish{}, nil)
		}
	})
}

// Even spacing is a uniform distribution, shape -1 as a generalised Pareto; a
// few giants among small storms are a tail heavier than any rain's.
func TestPeaksFrequencyHoldsTheShape(t *testing.T) {
	even, giants := make([]float64, 40), make([]float64, 40)
	for i := range even {
		even[i] = 30.5 + float64(i)
		giants[i] = 31 + float64(i)/100
	}
	giants[39], giants[38] = 500, 200
	o := rain.FrequencyOptions{Years: []float64{10}}
	f, err := rain.PeaksFrequency(even, 30, 16, o)
	require.NoError(t, err)
	assert.Equal(t, -0.30, f.Peaks.Shape)
	// mean of a generalised Pareto: threshold + scale/(1 - shape), here 50
	assert.InDelta(t, 50, 30+f.Peaks.Scale/1.30, 1e-9)
	assert.Contains(t, f.Notes[len(f.Notes)-1], "upper bound")
	assert.Zero(t, f.Levels[0].Likelihood, "maximum likelihood has no fit to an even spread")

	f, err = rain.PeaksFrequency(giants, 30, 16, o)
	require.NoError(t, err)
	assert.Equal(t, 0.35, f.Peaks.Shape)
	assert.Contains(t, f.Notes[len(f.Notes)-1], "heavy")
}

// Whatever the record, a refusal or levels that rise with the return period,
// within bands in order; never a panic, never a figure that is not finite.
func TestFrequencyOfAnyRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.OneOf(rapid.Float64Range(0, 200), rapid.SampledFrom([]float64{0, 0.1, 30, 1000})), 8, 40).Draw(t, "x")
		o := rain.FrequencyOptions{Years: []float64{2, 10, 50}}
		for _, run := range []func() (rain.Frequency, error){
			func() (rain.Frequency, error) { return rain.MaximaFrequency(x, o) },
			func() (rain.Frequency, error) { return rain.PeaksFrequency(x, x[0]/4, 20, o) },
		} {
			f, err := run()
			if err != nil {
				continue
			}
			before := 0.0
			for _, l := range f.Levels {
				inOrder := []float64{before, l.Depth.Value}
				bands := []float64{0, l.Depth.Low, l.Low80, l.Depth.Value, l.High80, l.Depth.High, math.MaxFloat64}
				if !slices.IsSorted(inOrder) || !slices.IsSorted(bands) {
					t.Fatalf("%v %v", inOrder, bands)
				}
				before = l.Depth.Value
			}
		}
	})
}

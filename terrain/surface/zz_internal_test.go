package surface
import ("testing";"fmt";"math/rand/v2";"math";"time";"crossfall/geodata";"github.com/paulmach/orb")
func TestZZ(t *testing.T) {
	for seed := range uint64(3) {
	rng := rand.New(rand.NewPCG(seed+1, 1))
	var spots []geodata.SpotHeight
	for range 500 { x,y := 20*rng.Float64(), 15*rng.Float64()
		spots = append(spots, geodata.SpotHeight{At: orb.Point{x,y}, Height: 50 + 0.03*x - 0.06*y + 0.15*math.Sin(2*math.Pi*x/11)*math.Cos(2*math.Pi*y/11)+.012*rng.NormFloat64()}) }
	s, _ := newSurvey(spots, Options{})
	r := s.readings()
	t0 := time.Now()
	best, _ := fromStarts(r.spread(coarseHeights), .01, true)
	fmt.Println("coarse", time.Since(t0), best)
	for _, mid := range []int{0, 150, 200} {
	h := best
	t0 = time.Now()
	nm := 0
	if mid > 0 { q := r.spread(mid); b := limitsOf(q, newExtent(q.at), true)
		h, _ = likelihood(func(h Hyper, g bool) (float64, [3]float64, bool) { nm++; return newREML(q).value(h, g) }).climb(b, h, between) }
	tm := time.Since(t0)
	fine := r.spread(searchHeights)
	b := limitsOf(fine, newExtent(fine.at), true)
	n := 0
	m := newREML(fine)
	got, l := likelihood(func(h Hyper, g bool) (float64, [3]float64, bool) { n++; v, d, ok := m.value(h, g); return v, d, ok }).climb(b, h, between)
	fmt.Println(mid, nm, tm, "fine", n, time.Since(t0), got, l)
	}
	}
}

package levelbook_test

import (
	"math"
	"testing"

	"crossfall/geodata/levelbook"
)

// FuzzAngles looks for texts that are taken for a bearing off the circle or for
// an angle that no slope has.
func FuzzAngles(f *testing.F) {
	for _, s := range []string{"35-30-00", "S68-05-35W", "35°30'", "360", "-4.5", "8.3 %", "12.5 mm/m", "1 in 12", "1:12", "1e400", "N E"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if b, err := levelbook.ParseBearing(text); !(b >= 0 && b <= 2*math.Pi) || err != nil && b != 0 {
			t.Fatalf("bearing %q gave %v, %v", text, b, err)
		}
		if a, err := levelbook.ParseAngle(text); !(math.Abs(a) <= math.Pi/2) || err != nil && a != 0 {
			t.Fatalf("angle %q gave %v, %v", text, a, err)
		}
	})
}

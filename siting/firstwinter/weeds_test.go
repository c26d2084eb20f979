package firstwinter_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/siting/firstwinter"

	"github.com/stretchr/testify/assert"
)

// Each layer lets three tenths through (common practice, no source): two 9 %, three
// 2.7 %, four 0.81 %.
func TestLayersByLight(t *testing.T) {
	for share, want := range map[float64]int{0.30: 1, 0.29: 2, 0.10: 2, 0.09: 2, 0.05: 3, 0.027: 3, 0.02: 4, 0.01: 4, 0.5: 1} {
		assert.Equal(t, want, firstwinter.LayersFor(share), "%g", share)
	}
}

func TestWeedsByEveryName(t *testing.T) {
	for name, botanical := range map[string]string{
		"couch grass": "Elymus repens", "Twitch": "Elymus repens", "elymus repens": "Elymus repens", "quack-grass": "Elymus repens",
		"bindweed": "Convolvulus arvensis", "ground-elder": "Aegopodium podagraria", "GROUND ELDER": "Aegopodium podagraria",
		"Bishops weed": "Aegopodium podagraria", "horsetail": "Equisetum arvense", "docks": "Rumex obtusifolius",
		"knotweed": "Reynoutria japonica",
	} {
		w, ok := firstwinter.Named(name)
		assert.True(t, ok, name)
		assert.Equal(t, botanical, w.Botanical, name)
	}
	for _, name := range []string{"", " ", "-", "lettuce", "grass"} {
		_, ok := firstwinter.Named(name)
		assert.False(t, ok, name)
	}
	assert.Equal(t, "field bindweed", firstwinter.NamesNear("feild bindweed")[0])
	assert.Equal(t, "couch grass", firstwinter.NamesNear("cuoch gras")[0])
	assert.Contains(t, firstwinter.NamesNear("grass"), "couch grass")
	assert.Empty(t, firstwinter.NamesNear("xyzzyx"))
	assert.LessOrEqual(t, len(firstwinter.NamesNear("bind")), 3)
}

// No name stands for two weeds, and each has figures that can be used, or a
// reason to leave it alone.
func TestWeedTable(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range firstwinter.Names() {
		w, ok := firstwinter.Named(name)
		assert.True(t, ok)
		assert.Equal(t, name, w.Common)
		assert.NotEmpty(t, w.Spreads, name)
		assert.Len(t, strings.Fields(w.Botanical), 2, name)
		for _, n := range append([]string{w.Common, w.Botanical}, w.Also...) {
			key := strings.ToLower(n)
			assert.False(t, seen[key], "%s stands twice", n)
			seen[key] = true
			same, _ := firstwinter.Named(n)
			assert.Equal(t, w.Common, same.Common, n)
		}
		if w.Leave != "" {
			assert.Zero(t, w.Cardboard)
			assert.Zero(t, w.Months)
			continue
		}
		assert.True(t, 0 < w.Months.Low && w.Months.Low <= w.Months.Value && w.Months.Value <= w.Months.High, name)
		assert.True(t, w.Cardboard >= 1 && w.Cardboard <= 3, name)
		assert.True(t, w.Layers() >= 2 && w.Layers() <= 4, name)
	}
	assert.GreaterOrEqual(t, len(seen), 50)
}

func ExampleNamed() {
	w, _ := firstwinter.Named("twitch")
	fmt.Println(w.Common, "is", w.Botanical)
	fmt.Printf("%d layers, %.0f months (%.0f to %.0f)\n", w.Layers(), w.Months.Value, w.Months.Low, w.Months.High)
	// Output:
	// couch grass is Elymus repens
	// 3 layers, 12 months (6 to 18)
}

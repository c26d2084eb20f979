package firstwinter

import "crossfall/geodata"

// Shares of light that weeds are starved by: those that live on little store,
// those on more, and those whose roots keep for years.
const (
	dim    = 0.10
	darker = 0.05
	dark   = 0.02
)

func months(value, low, high float64) geodata.Estimate {
	return geodata.Estimate{Value: value, Low: low, High: high}
}

// weeds are those that most often come through new beds. Every figure: common
// practice, no source.
var weeds = []Weed{
	{Common: "couch grass", Botanical: "Elymus repens", Also: []string{"couch", "twitch", "quackgrass", "Agropyron repens", "Elytrigia repens"},
		Spreads: "by creeping stems under the ground, mostly in the top 150 mm", First: "mow it as low as it goes", Cardboard: 2, Light: darker, Months: months(12, 6, 18)},
	{Common: "field bindweed", Botanical: "Convolvulus arvensis", Also: []string{"bindweed", "lesser bindweed"},
		Spreads: "by roots that go 2 m down and more, and from any piece of them", First: "lift what comes without breaking", Cardboard: 2, Light: dark, Months: months(24, 18, 36)},
	{Common: "hedge bindweed", Botanical: "Calystegia sepium", Also: []string{"greater bindweed", "bellbine"},
		Spreads: "by white, brittle stems under the ground, and from any piece of them", First: "lift what comes without breaking", Cardboard: 2, Light: dark, Months: months(18, 12, 24)},
	{Common: "ground elder", Botanical: "Aegopodium podagraria", Also: []string{"goutweed", "bishop's weed"},
		Spreads: "by creeping stems just under the ground", First: "mow it as low as it goes", Cardboard: 2, Light: dark, Months: months(18, 12, 24)},
	{Common: "field horsetail", Botanical: "Equisetum arvense", Also: []string{"horsetail", "mare's tail"},
		Spreads: "by stems 2 m under the ground and deeper; a cover weakens it and seldom ends it", First: "cut it, and do not dig after it", Cardboard: 2, Light: dark, Months: months(36, 24, 48)},
	{Common: "creeping thistle", Botanical: "Cirsium arvense", Also: []string{"Canada thistle", "thistle"},
		Spreads: "by roots that run sideways and send up shoots", First: "cut it before it flowers", Cardboard: 2, Light: darker, Months: months(18, 12, 24)},
	{Common: "perennial sow-thistle", Botanical: "Sonchus arvensis", Also: []string{"corn sow-thistle"},
		Spreads: "by roots that run sideways, and seed", First: "cut it before it flowers", Cardboard: 2, Light: darker, Months: months(12, 9, 18)},
	{Common: "broad-leaved dock", Botanical: "Rumex obtusifolius", Also: []string{"dock", "docks", "curled dock", "Rumex crispus"},
		Spreads: "by seed, and from the top of its tap root", First: "dig out the top 150 mm of the root, the part that grows again", Cardboard: 1, Light: darker, Months: months(12, 6, 18)},
	{Common: "dandelion", Botanical: "Taraxacum officinale", Also: []string{"dandelions"},
		Spreads: "by seed, and from any piece of its tap root", First: "dig out the crown with as much root as comes", Cardboard: 1, Light: dim, Months: months(9, 6, 12)},
	{Common: "stinging nettle", Botanical: "Urtica dioica", Also: []string{"nettle", "nettles"},
		Spreads: "by yellow stems at the surface", First: "pull the yellow stems", Cardboard: 2, Light: dim, Months: months(12, 6, 18)},
	{Common: "creeping buttercup", Botanical: "Ranunculus repens", Also: []string{"buttercup"},
		Spreads: "by runners on the ground", First: "mow it as low as it goes", Cardboard: 1, Light: dim, Months: months(6, 4, 9)},
	{Common: "bramble", Botanical: "Rubus fruticosus", Also: []string{"brambles", "blackberry"},
		Spreads: "by tips that root, and from its woody crown", First: "cut it down and grub out the crown", Cardboard: 2, Light: darker, Months: months(12, 6, 18)},
	{Common: "lesser celandine", Botanical: "Ficaria verna", Also: []string{"celandine", "Ranunculus ficaria"},
		Spreads: "by small tubers that break off; it grows in winter, so the cover must lie through one", First: "do not rake it about", Cardboard: 2, Light: darker, Months: months(18, 12, 24)},
	{Common: "coltsfoot", Botanical: "Tussilago farfara",
		Spreads: "by deep, creeping stems under the ground, most of all in clay", First: "cut it before it flowers", Cardboard: 2, Light: dark, Months: months(18, 12, 24)},
	{Common: "rosebay willowherb", Botanical: "Chamaenerion angustifolium", Also: []string{"willowherb", "fireweed", "Epilobium angustifolium"},
		Spreads: "by seed and by roots that run sideways", First: "cut it before it seeds", Cardboard: 1, Light: darker, Months: months(12, 6, 18)},
	{Common: "ground ivy", Botanical: "Glechoma hederacea", Also: []string{"creeping Charlie"},
		Spreads: "by runners on the ground", First: "rake it off", Cardboard: 1, Light: dim, Months: months(6, 4, 9)},
	{Common: "yarrow", Botanical: "Achillea millefolium",
		Spreads: "by creeping stems under the turf", First: "mow it as low as it goes", Cardboard: 1, Light: dim, Months: months(9, 6, 12)},
	{Common: "bracken", Botanical: "Pteridium aquilinum",
		Spreads: "by stout stems deep under the ground", First: "cut the fronds twice in summer", Cardboard: 2, Light: darker, Months: months(24, 18, 36)},
	{Common: "Bermuda grass", Botanical: "Cynodon dactylon", Also: []string{"devil grass", "wiregrass", "kweek"},
		Spreads: "by stems on the ground and under it, which bore through card", First: "mow it as low as it goes", Cardboard: 2, Light: dark, Months: months(18, 12, 24)},
	{Common: "kikuyu grass", Botanical: "Cenchrus clandestinus", Also: []string{"kikuyu", "Pennisetum clandestinum"},
		Spreads: "by stout stems on the ground and under it", First: "mow it as low as it goes", Cardboard: 2, Light: dark, Months: months(18, 12, 24)},
	{Common: "Johnson grass", Botanical: "Sorghum halepense",
		Spreads: "by stout stems under the ground, and seed", First: "cut it before it seeds", Cardboard: 2, Light: dark, Months: months(18, 12, 24)},
	{Common: "yellow nutsedge", Botanical: "Cyperus esculentus", Also: []string{"nutsedge", "nutgrass", "chufa"},
		Spreads: "by tubers, whose sharp shoots bore through card and thin sheets", First: "lift the tubers that come with the plant", Cardboard: 3, Light: dark, Months: months(24, 18, 36)},
	{Common: "Japanese knotweed", Botanical: "Reynoutria japonica", Also: []string{"knotweed", "Fallopia japonica"},
		Spreads: "from the smallest piece of its underground stems",
		Leave:   "do not dig it, cut pegs or trenches through it, cover it or carry its soil about: ask someone licensed to treat it. In the United Kingdom soil with it in is controlled waste (Environmental Protection Act 1990, from memory); elsewhere ask which rule holds"},
	{Common: "giant hogweed", Botanical: "Heracleum mantegazzianum",
		Spreads: "by seed",
		Leave:   "its sap burns the skin in sunlight: do not cut, strim or dig it without covering skin and eyes; ask someone trained to remove it before you work there"},
}

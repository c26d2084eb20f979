package geodata

// Site is what the grower wrote in site.toml. A nil pointer, an empty string
// or an empty list means "not said": the default is chosen, and named, by
// siting, never here. Units are those of the key names (mm, m, m3, degrees).
type Site struct {
	Name        string `toml:"name"`
	Coordinates string `toml:"coordinates"` // "local" or "lonlat"
	Units       string `toml:"units"`       // "m" or "ft": heights.csv columns whose header names no unit

	Place        Place              `toml:"place"`
	Compass      Compass            `toml:"compass"`
	Ground       GroundWords        `toml:"ground"`
	Beds         BedWish            `toml:"beds"`
	Boards       BoardOffer         `toml:"boards"`
	Pegs         PegOffer           `toml:"pegs"`
	Compost      CompostOffer       `toml:"compost"`
	Carrying     Carrying           `toml:"carrying"`
	Rain         RainWish           `toml:"rain"`
	Services     map[Carrier]string `toml:"services"` // "drawn", "located by ...", "none, known by ...", "unknown"
	Prices       Prices             `toml:"prices"`
	ToCome       []TallThing        `toml:"to_come"`
	Weeds        []WeedMet          `toml:"weeds"` // those met in some beds only
	Acknowledged []Acknowledgement  `toml:"acknowledged"`
}

// Place says where the plot is.
type Place struct {
	Latitude  *float64 `toml:"latitude"`  // degrees, north positive
	Longitude *float64 `toml:"longitude"` // degrees, east positive
	North     string   `toml:"north"`     // "true", "grid", "magnetic"; empty: the +y axis
	// AxisBearing is the bearing of the +y axis, degrees clockwise from North.
	AxisBearing *float64 `toml:"y_axis_bearing_degrees"`
	Grid        *int     `toml:"grid_epsg"` // code of the map grid that local metres are on
	Country     string   `toml:"country"`   // rule for work near services; empty: the default clearance
}

// GroundWords describes the ground by touch, in the wettest month.
type GroundWords struct {
	Thumb     string        `toml:"thumb"`   // one of the ground words of siting/soil
	Cover     string        `toml:"cover"`   // "turf", "rough grass", "bare", "dug"
	Texture   string        `toml:"texture"` // one of the twelve classes, such as "sandy loam"
	Ribbon    string        `toml:"ribbon"`  // hand test: length of the ribbon that moist soil makes
	Feel      string        `toml:"feel"`    // hand test: "gritty", "smooth" or "neither" when rubbed wet
	TestPit   *TestPit      `toml:"test_pit"`
	Analysis  *SoilAnalysis `toml:"analysis"`
	Precision *float64      `toml:"reading_precision_mm"`
	Surface   string        `toml:"surface"`          // fitted whatever the heights say: "plane", "curved" or "smooth"
	Strength  *float64      `toml:"strength_kpa"`     // undrained, measured in the wettest month
	Cohesion  *float64      `toml:"wet_cohesion_kpa"` // drained cohesion of the wet topsoil, measured
	Roughness *float64      `toml:"roughness_mm"`     // standard deviation of the ground along a board
	// UphillLength is the length of slope above the plot that drains on to
	// it, metres, where the survey does not reach the top of the slope.
	UphillLength *float64 `toml:"uphill_length_m"`
	// Weeds are the perennial weeds met all over the plot when digging, by common or botanical name.
	Weeds   []string `toml:"weeds"`
	WeedsAt Pos      `toml:"-"` // where they were read
}

// SoilAnalysis is the topsoil as a laboratory gives it, percent by weight of what
// is finer than 2 mm; stones in percent of the surface.
type SoilAnalysis struct {
	Sand         *float64 `toml:"sand_percent"` // .05 to 2 mm
	Silt         *float64 `toml:"silt_percent"` // .002 to .05 mm
	Clay         *float64 `toml:"clay_percent"`
	VeryFineSand *float64 `toml:"very_fine_sand_percent"` // .05 to .10 mm, part of the sand
	Organic      *float64 `toml:"organic_percent"`
	Stones       *float64 `toml:"stones_percent"`
}

// TestPit is a pit filled with water and watched, to tell how fast the ground
// soaks.
type TestPit struct {
	Length  *float64 `toml:"length_m"`
	Width   *float64 `toml:"width_m"`
	From    *float64 `toml:"from_m"`  // depth of water at three quarters of the filling
	To      *float64 `toml:"to_m"`    // and at a quarter
	Minutes *float64 `toml:"minutes"` // that it took to fall from one to the other
}

// BedWish says which beds are wanted.
type BedWish struct {
	Count  *int     `toml:"count"` // of all beds, those drawn by hand among them
	Length *float64 `toml:"length_m"`
	Width  *float64 `toml:"width_m"`
	Depth  *float64 `toml:"depth_mm"`
	Path   *float64 `toml:"path_m"`

	Most     bool     `toml:"most"`        // as many as fit, in place of a count
	RowMin   *int     `toml:"row_min"`     // least number of beds in a row
	Columns  bool     `toml:"columns"`     // the beds of all rows stand in columns too
	Pairs    bool     `toml:"pairs"`       // rows may stand in pairs, nearer than a path
	PairPath *float64 `toml:"pair_path_m"` // between the rows of a pair
	// Sun and Carrying are how much hours of sun and the way from the gate count
	// when places are weighed; 1 is usual, 0 not at all.
	Sun      *float64 `toml:"sun_counts"`
	Carrying *float64 `toml:"carrying_counts"`
}

// BoardOffer is what can be bought, or is in the shed.
type BoardOffer struct {
	Lengths     []float64 `toml:"lengths_m"`
	Heights     []float64 `toml:"heights_mm"`
	Thicknesses []float64 `toml:"thicknesses_mm"`
	Durability  *int      `toml:"durability_class"` // EN 350 class 1 to 5
	Life        *float64  `toml:"life_years"`       // that boards should last
	PricePerM   *float64  `toml:"price_per_m"`
	Kerf        *float64  `toml:"kerf_mm"`
}

// PegOffer is the pegs to be used.
type PegOffer struct {
	Size  *float64 `toml:"size_mm"` // side of a square peg
	Price *float64 `toml:"price_each"`
	// Spacing is the widest wanted between pegs, metres.
	Spacing *float64 `toml:"spacing_m"`
}

// CompostOffer is the fill to be bought.
type CompostOffer struct {
	PricePerM3 *float64 `toml:"price_per_m3"`
	Currency   string   `toml:"currency"`
	// OrderFactor is loose compost to order over compost as laid.
	OrderFactor *float64 `toml:"order_factor"`
	Fill        string   `toml:"fill"` // one of the fill words of siting/soil
	// DryDensity and Moisture are measured: the density of the fill when dried,
	// and the part of its wet mass that is water.
	DryDensity *float64 `toml:"dry_density_kg_m3"`
	Moisture   *float64 `toml:"moisture_percent"`
}

// Carrying says what carries the compost up the slope.
type Carrying struct {
	Load   *float64 `toml:"load_litres"` // laid volume of one load
	Barrow *float64 `toml:"barrow_kg"`   // empty mass
	Width  *float64 `toml:"barrow_width_m"`
	// Steepest is the greatest gradient along the way with a full load.
	Steepest *float64 `toml:"steepest_percent"`
}

// RainWish overrides rain figures by hand.
type RainWish struct {
	WinterHalf *float64 `toml:"winter_half_mm"`
	M5Hour     *float64 `toml:"m5_60_mm"` // 60-minute rain met once in 5 years on average
	Ratio      *float64 `toml:"ratio_r"`  // M5-60 minutes over M5-2 days
	// Erosivity is the erosive power of the rain of a mean year, MJ mm/(ha h).
	Erosivity *float64 `toml:"erosivity"`
}

// Acknowledgement records that a person has read a caution. It restores
// nothing that the caution took away.
type Acknowledgement struct {
	Caution string `toml:"caution"` // the caution's id
	By      string `toml:"by"`
	Date    string `toml:"date"` // YYYY-MM-DD
}

// Rain is what rain.csv held: monthly means, depth-duration figures, or a record
// of days or shorter intervals with the monthly means worked from it.
type Rain struct {
	Monthly []float64       // twelve means, mm, January first; nil: none given
	Daily   *DailyRain      // the daily record; nil: none given
	Bursts  []DepthDuration // depth-duration figures; nil: none given
	// Intervals is a record of shorter intervals, with Daily and Monthly worked
	// from it; nil: none given.
	Intervals *IntervalRain
	Years     float64 // length of record behind Monthly, years; 0 not known
	From      string  // what it was made from, in words ("monthly means", "daily record 1991-2020")
	Source    Pos
}

// DepthDuration is one design depth.
type DepthDuration struct {
	Minutes     float64
	ReturnYears float64
	Depth       float64 // mm
}

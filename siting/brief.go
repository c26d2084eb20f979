package siting

import (
	"slices"
	"strconv"

	"crossfall/geodata"
	"crossfall/siting/access"
	"crossfall/siting/firstwinter"
	"crossfall/siting/frame"
	"crossfall/siting/soil"
	"crossfall/terrain/surface"
)

// Defaults of ours, used and named when the grower has said nothing.
const (
	DefaultBedCount   = 1
	DefaultBedLength  = 3.6  // m, one stock board (common practice, no source)
	DefaultBedWidth   = 1.2  // m, the middle within reach from both sides (common practice, no source)
	DefaultFill       = 0.15 // m (common practice, no source)
	DefaultPath       = 0.6  // m (common practice, no source)
	DefaultPegSize    = 0.05 // m, side of a square peg (common practice, no source)
	DefaultDurability = 4    // EN 350 class of larch, pine and spruce heartwood, the cautious end
	DefaultThickness  = 0.025
	DefaultRoughness  = 0.006 // m, mown lawn
	DefaultBarrow     = 15.0  // kg, empty
	DefaultLoad       = 45.0  // litres laid (common practice, no source)
)

// Brief is what is wanted and what the ground is like, with every default
// filled in. SI units.
type Brief struct {
	RowWish

	Count               int
	Length, Width, Fill float64
	Path                float64
	Precision           float64 // standard deviation of a reading that names none, m
	Ground              soil.Ground
	Texture             soil.Texture     // "": not known
	Erodibility         geodata.Estimate // t ha h/(ha MJ mm)
	SoakDesign          float64          // m/s that a soakaway is sized by; 0: not known, or hardly at all
	SoaksSaid           string           // where that comes from
	Cover               string
	Turf                bool
	Cohesion            *float64 // kPa; nil not measured
	Roughness           float64
	UphillLength        float64   // of ground above the plot that drains on to it, m
	BoardHeights        []float64 // m
	BoardThicknesses    []float64 // m
	LongestBoard        float64   // m
	Durability          int
	BoardLife           float64 // years wished
	PegSize             float64
	PegSpacing          float64 // m; 0: the usual
	Material            soil.Fill
	Measured            bool               // its density was measured
	Weeds               []firstwinter.Weed // met all over
	BedWeeds            []BedWeed          // met in some beds only
	Load                float64            // litres
	Barrow              float64            // kg
	BarrowWidth         float64            // m
	Steepest            float64            // gradient of the way with a full load
	Assumptions         []Assumption
}

// settler fills in a brief and keeps the list of what was assumed.
type settler struct{ assumed []Assumption }

func (s *settler) assume(what, value, set string) {
	s.assumed = append(s.assumed, Assumption{What: what, Value: value, Set: set})
}

// number is the grower's figure scaled to SI, or the default, which is noted.
func (s *settler) number(given *float64, scale, byDefault float64, what, value, key string) float64 {
	if given != nil {
		return *given * scale
	}
	s.assume(what, value, key)
	return byDefault
}

// settle fills in every wish that site.toml leaves open. The site has passed
// the reader's range checks; a ground word outside the list is a fault here,
// because only siting/soil knows the list.
func settle(p *geodata.Plot) (Brief, geodata.Faults) {
	var s settler
	var faults geodata.Faults
	site := p.Site
	s.frame(p)
	b := Brief{
		Count:    DefaultBedCount,
		Length:   s.number(site.Beds.Length, 1, DefaultBedLength, "length of a bed", "3.6 m", "site.toml: beds.length_m"),
		Width:    s.number(site.Beds.Width, 1, DefaultBedWidth, "width of a bed", "1.2 m", "site.toml: beds.width_m"),
		Fill:     s.number(site.Beds.Depth, 1e-3, DefaultFill, "least depth of compost", "150 mm", "site.toml: beds.depth_mm"),
		Path:     s.number(site.Beds.Path, 1, DefaultPath, "width of paths between beds", "0.6 m", "site.toml: beds.path_m"),
		Cohesion: site.Ground.Cohesion,
	}
	if site.Beds.Count != nil {
		b.Count = *site.Beds.Count
	} else if site.Beds.Most || len(p.OfKind(geodata.BedKind)) > 0 {
		b.Count = 0
	} else {
		s.assume("number of beds", strconv.Itoa(DefaultBedCount), "site.toml: beds.count")
	}
	if b.Width > b.Length {
		faults.Add(geodata.Fault{
			Code: "bed-wider-than-long", Pos: geodata.Pos{File: "site.toml"}, Read: geodata.Metric.Length(b.Width),
			Message: "beds.width_m is more than the length of a bed, " + geodata.Metric.Length(b.Length),
			Want:    "write the longer side as beds.length_m: edges are decided for the long side",
		})
	}
	s.rows(&b, site.Beds)
	s.ground(&b, site.Ground, p.Hillside != nil, &faults)
	s.weeds(&b, site, &faults)
	s.fill(&b, site.Compost, &faults)
	s.timber(&b, site)
	b.Load = s.number(site.Carrying.Load, 1, DefaultLoad, "one barrow load, as laid", "45 litres (common practice)", "site.toml: carrying.load_litres")
	b.Barrow = s.number(site.Carrying.Barrow, 1, DefaultBarrow, "an empty barrow", "15 kg", "site.toml: carrying.barrow_kg")
	b.BarrowWidth = s.number(site.Carrying.Width, 1, access.DefaultWidth, "width of a barrow", "0.6 m (common practice)", "site.toml: carrying.barrow_width_m")
	b.Steepest = s.number(site.Carrying.Steepest, 0.01, access.DefaultGradient, "steepest way for a full load", "1 in 12", "site.toml: carrying.steepest_percent")
	s.missing(p)
	b.Assumptions = s.assumed
	return b, faults
}

// frame names what the coordinates were taken to mean.
func (s *settler) frame(p *geodata.Plot) {
	if !p.BoundaryDrawn {
		s.assume("boundary", "the hull of the heights", "draw a boundary in features.csv or plot.geojson")
	}
	if !p.Frame.Geographic && p.Site.Place.North == "" {
		s.assume("north", "the +y axis", "site.toml: place.north and place.y_axis_bearing_degrees")
	}
	if !p.Frame.Geographic && p.Site.Units == "" {
		s.assume("unit of x, y and z", "metres unless a column header says otherwise", "site.toml: units, or a header such as z (ft)")
	}
}

// ground settles the ground words and the precision of a reading.
func (s *settler) ground(b *Brief, g geodata.GroundWords, hillside bool, faults *geodata.Faults) {
	b.Precision = s.number(g.Precision, 1e-3, surface.DefaultSigma, "precision of a reading that names none", "12 mm, one standard deviation, with the ground under the staff", "site.toml: ground.reading_precision_mm, or a precision column")
	word := g.Thumb
	if word == "" {
		word = soil.DefaultWord
		s.assume("ground in the wettest month", word, "site.toml: ground.thumb")
	}
	ground, ok := soil.Named(word)
	if !ok {
		faults.Add(geodata.Fault{
			Code: "ground-word-unknown", Pos: geodata.Pos{File: "site.toml"}, Read: word,
			Message: "ground.thumb is not one of the ground words",
			Want:    groundWordsWanted(word),
		})
	}
	b.Ground = ground
	if g.Strength != nil {
		b.Ground = measured(ground, *g.Strength, faults)
	}
	s.texture(b, g, faults)
	b.Cover = g.Cover
	if b.Cover == "" {
		b.Cover = "turf"
		s.assume("ground cover", "turf", "site.toml: ground.cover")
	}
	b.Turf = b.Cover == "turf" || b.Cover == "rough grass"
	b.Roughness = DefaultRoughness
	if g.Roughness != nil {
		b.Roughness = *g.Roughness / 1000
	}
	switch {
	case g.UphillLength != nil:
		b.UphillLength = *g.UphillLength
	case !hillside:
		s.assume("length of slope above the plot that drains on to it", "0 m", "site.toml: ground.uphill_length_m")
	}
}

// timber settles boards and pegs.
func (s *settler) timber(b *Brief, site geodata.Site) {
	b.PegSize = s.number(site.Pegs.Size, 1e-3, DefaultPegSize, "pegs", "50 mm square softwood", "site.toml: pegs.size_mm")
	if site.Pegs.Spacing != nil {
		b.PegSpacing = *site.Pegs.Spacing
	}
	b.BoardHeights = scaled(site.Boards.Heights, 1e-3)
	b.BoardThicknesses = scaled(site.Boards.Thicknesses, 1e-3)
	if len(b.BoardHeights) == 0 {
		b.BoardHeights = []float64{0.15, 0.175, 0.2, 0.225}
		s.assume("heights of boards on sale", "150, 175, 200 and 225 mm", "site.toml: boards.heights_mm")
	}
	if len(b.BoardThicknesses) == 0 {
		b.BoardThicknesses = []float64{DefaultThickness}
		s.assume("thickness of boards on sale", "25 mm", "site.toml: boards.thicknesses_mm")
	}
	b.LongestBoard = frame.DefaultLongest
	if len(site.Boards.Lengths) > 0 {
		b.LongestBoard = slices.Max(site.Boards.Lengths)
	} else {
		s.assume("lengths of boards on sale", "3.6 and 4.8 m", "site.toml: boards.lengths_m")
	}
	b.BoardLife = s.number(site.Boards.Life, 1, frame.DefaultLife, "years that boards should last", "5 (common practice)", "site.toml: boards.life_years")
	b.Durability = DefaultDurability
	if site.Boards.Durability != nil {
		b.Durability = *site.Boards.Durability
	} else {
		s.assume("durability of the boards", "class 4 of EN 350 (spruce, pine)", "site.toml: boards.durability_class")
	}
}

// offered is the site with the board heights that the frames were made of.
func (b Brief) offered(site geodata.Site) geodata.Site {
	site.Boards.Heights = scaled(b.BoardHeights, 1000)
	return site
}

// missing names what is left out for want of an input.
func (s *settler) missing(p *geodata.Plot) {
	if p.Site.Place.Latitude == nil && !p.Frame.Geographic {
		s.assume("latitude", "not said: no sun hours, and October to March taken as the wet half-year", "site.toml: place.latitude")
	}
	if p.Site.Boards.PricePerM == nil && p.Site.Compost.PricePerM3 == nil && p.Site.Pegs.Price == nil {
		s.assume("prices", "not said: no cost", "site.toml: boards.price_per_m, compost.price_per_m3, pegs.price_each")
	}
}

func scaled(v []float64, f float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = v[i] * f
	}
	return out
}

package siting

import (
	"crossfall/geodata"
	"crossfall/siting/caution"
	"crossfall/siting/firstwinter"
	"crossfall/siting/frame"
	"crossfall/siting/setout"
	"crossfall/siting/takeoff"

	"github.com/paulmach/orb"
)

// SchemaVersion names the shape of an Assessment's JSON. It grows by one when
// a key changes its meaning or goes; keys may be added without it.
const SchemaVersion = 1

// Assessment is the whole answer for one plot. Terminal, JSON, report and plan
// all show this one value and compute nothing. SI units throughout, named in
// the keys; bearings are degrees clockwise from Frame.North.
type Assessment struct {
	SchemaVersion int    `json:"schema_version"`
	Name          string `json:"name"`
	Frame         Frame  `json:"frame"`

	Ground      Ground            `json:"ground"`
	Water       Water             `json:"water"`
	Light       Light             `json:"light"`
	ToCome      []ToCome          `json:"to_come"` // tall things, and where they would leave the beds their sun
	OrderOfWork firstwinter.Plan  `json:"order_of_work"`
	Beds        []Bed             `json:"beds"`
	Layout      *Layout           `json:"layout"` // null where all beds were drawn and nothing is compared
	Carrying    Carrying          `json:"carrying"`
	Quantities  takeoff.List      `json:"quantities"`
	SettingOut  setout.Sheet      `json:"setting_out"`
	Cautions    []caution.Caution `json:"cautions"`

	// Features are the drawn fixtures other than the boundary and the beds,
	// for the plan.
	Features []Feature `json:"features"`

	Assumptions []Assumption `json:"assumptions"`
	Working     []Basis      `json:"working"`
	// Findings are the notes and warnings of reading the input.
	Findings geodata.Faults `json:"findings"`
}

// Frame says what was read and how large it is.
type Frame struct {
	Coordinates   string      `json:"coordinates"` // "local metres" or "longitude and latitude"
	Origin        *orb.Point  `json:"origin_longitude_latitude,omitempty"`
	MapGrid       int         `json:"map_grid_epsg,omitempty"` // EPSG code of the grid that x and y are on; 0: none
	North         string      `json:"north"`
	AxisBearing   float64     `json:"y_axis_bearing_degrees"`
	Width         float64     `json:"width_m"` // east to west
	Depth         float64     `json:"depth_m"` // south to north
	Area          float64     `json:"area_m2"`
	BoundaryDrawn bool        `json:"boundary_drawn"`
	Boundary      []orb.Point `json:"boundary"`
}

// Interval is a direction or figure that may be undetermined; then Value, Low
// and High are null and Reason says why.
type Interval struct {
	Value  *float64 `json:"value"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
	Reason string   `json:"reason,omitempty"`
}

// Ground is the shape of the ground.
type Ground struct {
	Surface       string           `json:"surface"` // "plane", "curved", "smooth"
	SurfaceWhy    string           `json:"surface_why"`
	Uneven        bool             `json:"uneven"` // not enough known for a local fall
	FallPercent   geodata.Estimate `json:"fall_percent"`
	FallSaid      string           `json:"fall_said"` // the fall in words: a figure, "level", or "cannot tell"
	Determined    bool             `json:"fall_determined"`
	RunoffBearing Interval         `json:"runoff_bearing_degrees"`
	// LeastFall and GreatestFall are where in the plot the fitted ground is
	// flattest and steepest.
	LeastFall      FallAt     `json:"least_fall"`
	GreatestFall   FallAt     `json:"greatest_fall"`
	Precision      float64    `json:"reading_precision_mm"`
	ResidualSpread float64    `json:"residual_spread_mm"`
	Heights        []Height   `json:"heights"`
	Suspects       []Suspect  `json:"suspect_heights"`
	NextHeight     string     `json:"next_height,omitempty"` // the reading that would settle what is open
	NextHeightAt   *orb.Point `json:"next_height_at,omitempty"`
	// NextHeights are the readings that would settle most, in walking order.
	NextHeights     []NextHeight `json:"next_heights"`
	Contours        []Contour    `json:"contours"`
	ContourInterval float64      `json:"contour_interval_m"`
	// ContourUnits are those in which the heights of contours are round: "m", or "ft".
	ContourUnits geodata.Units `json:"contour_units"`
	Hollows      []Hollow      `json:"hollows"`
	Notes        []string      `json:"notes"`
	// Simulation is how the chances of beds and paths were come by; null without.
	Simulation *Simulation `json:"simulation"`
}

// FallAt is the fall at one place.
type FallAt struct {
	Percent geodata.Estimate `json:"percent"`
	At      orb.Point        `json:"at"`
}

// Height is one spot height as used, with what the surface leaves of it.
type Height struct {
	Name     string    `json:"name"`
	At       orb.Point `json:"at"`
	Height   float64   `json:"height_m"`
	Residual float64   `json:"residual_mm"`
}

// Suspect is a height that looks mis-booked.
type Suspect struct {
	Name   string `json:"name"`
	Reason string `json:"reason"`
}

// Contour is one line of equal height.
type Contour struct {
	Level  float64     `json:"level_m"`
	Points []orb.Point `json:"points"`
	Closed bool        `json:"closed"`
}

// Hollow is a place where water stands until it spills.
type Hollow struct {
	At      orb.Point   `json:"at"` // deepest point
	Depth   float64     `json:"depth_mm"`
	Area    float64     `json:"area_m2"`
	Volume  float64     `json:"volume_m3"`
	Spill   orb.Point   `json:"spills_at"`
	Cells   []orb.Point `json:"-"`
	Outline []orb.Point `json:"outline,omitempty"`
}

// Water is the winter's rain and where it runs.
type Water struct {
	WinterRain   *geodata.Estimate `json:"winter_rain_mm"` // null: no rain figures
	WinterMonths string            `json:"winter_months"`
	WinterSource string            `json:"winter_source"`
	Months       []float64         `json:"mean_rain_of_months_mm,omitempty"` // January first; empty: not known
	DesignRain   geodata.Estimate  `json:"design_rain_mm_per_h"`
	DesignSource string            `json:"design_source"`
	DesignSaid   string            `json:"design_said"` // which storm on which ground
	Storm        string            `json:"storm"`       // "not run", "current", "out of date"
	Played       *Storm            `json:"-"`           // while it is current; kept in a file of its own
	Paths        []Path            `json:"paths"`
	// PathsWithBeds are the same paths with the framed beds built.
	PathsWithBeds []Path `json:"paths_with_beds"`

	Storms  []DesignStorm `json:"design_storms"` // shortest return period first
	Days    *RainDays     `json:"greatest_days"` // null without a daily record of ten years
	Inflow  []Crossing    `json:"inflow"`        // where water comes in over the boundary
	Outflow []Crossing    `json:"outflow"`       // and where it leaves
	Places  []Place       `json:"places"`        // likely to stay damp, or where cold air lies
	// YearlyLoss is the soil that a year carries off the plot under each of
	// four covers; empty, with LossNote, where it cannot be told.
	YearlyLoss []CoverLoss `json:"yearly_soil_loss"`
	LossNote   string      `json:"yearly_soil_loss_note,omitempty"`
	Advice     []Advice    `json:"advice"`
	Drains     []Drain     `json:"drains"` // cut-off channels and a soakaway, where water is to be led away
}

// Path is one line that water takes over the ground.
type Path struct {
	Name     string      `json:"name"`
	Said     string      `json:"said"`
	Points   []orb.Point `json:"points"`
	Length   float64     `json:"length_m"`
	End      string      `json:"ends"`      // why it ends, a drainage.EndReason
	Crosses  []string    `json:"crosses"`   // beds whose place it runs over
	TurnedBy []string    `json:"turned_by"` // beds whose boards turn it
	// Share is the part of the simulated surfaces in which water from the same
	// place passes within 2 m of the path's end; null where none were drawn.
	Share *float64 `json:"share_of_simulated"`
}

// Corner is a bed's corner: east, north, height of the ground, m.
type Corner [3]float64

// Bed is the decision about one bed.
type Bed struct {
	Name       string    `json:"name"`
	Pinned     bool      `json:"pinned"`
	Length     float64   `json:"length_m"`
	Width      float64   `json:"width_m"`
	Centre     orb.Point `json:"centre"`
	Corners    [4]Corner `json:"corners"` // clockwise from the uphill left
	LongSide   float64   `json:"long_side_bearing_degrees"`
	OffContour float64   `json:"off_contour_degrees"`

	FallPercent   geodata.Estimate `json:"fall_percent"`
	FallAcross    geodata.Estimate `json:"fall_across_mm"`
	FallAlong     geodata.Estimate `json:"fall_along_mm"`
	FallSaid      string           `json:"fall_said"`
	FallTold      bool             `json:"fall_told"` // false: the survey cannot tell it, decided at the upper limits
	RunoffBearing Interval         `json:"runoff_bearing_degrees"`
	LowEnd        string           `json:"low_end"` // "left" or "right", looking uphill

	Edge        frame.Class   `json:"edge"`
	EdgeFirm    bool          `json:"edge_firm"` // the class holds over the bands of the fall, the ground, the water and the fill
	EdgeBecause string        `json:"edge_because"`
	EdgeRange   []frame.Class `json:"edge_range"` // mildest and gravest class over the fall's band
	NextEdge    string        `json:"next_edge"`
	// MilderEdge is what single change would give a milder class; "" for none.
	MilderEdge string `json:"milder_edge"`
	// Sensitivity is what ground strength, water and fill may do to the edge; null
	// where the place itself is refused.
	Sensitivity *Sensitivity `json:"sensitivity"`
	// Options are the four ways to edge the bed, side by side, and Worth the short
	// answer to whether boarding is worth it; empty where nothing is to be built.
	Options []EdgeOption `json:"options"`
	Worth   string       `json:"worth_boarding"`
	// Section is the cut through the bed as built; null where nothing is.
	Section *Section `json:"section"`

	RunOnLength geodata.Estimate `json:"run_on_length_m"`
	RunOnRate   geodata.Estimate `json:"run_on_litres_per_s"`
	SheetDepth  geodata.Estimate `json:"sheet_depth_mm"`

	// Build is null for a bed that must not be built or stands under a stop.
	Build *Build `json:"build"`
	// The figures that people ask for first, repeated from Build; null with it.
	BoardHeightUphill   *geodata.Estimate `json:"board_height_uphill_mm"`
	BoardHeightDownhill *geodata.Estimate `json:"board_height_downhill_mm"`
	SunkenDepth         *geodata.Estimate `json:"sunken_depth_mm"`
	Pegs                *Pegs             `json:"pegs"`

	Chances // what simulated surfaces say

	// Marks are those of the bed's place, of 100; null where it has none.
	Marks *float64 `json:"marks"`

	Water *BedWater `json:"water"` // what winter rain does here; null where no bed is built
	Light *BedLight `json:"light"` // direct sun on four dates; null where it cannot be told

	Access *BedAccess `json:"access"` // how its compost gets there; null where no bed is built

	PlaceNotes []string `json:"place_notes"` // damp ground and cold air here

	Cautions []string `json:"cautions"` // ids of the cautions that touch this bed
}

// Build is what to make.
type Build struct {
	FillWished float64          `json:"fill_wished_mm"`
	Fill       float64          `json:"fill_mm"`     // least depth of compost
	Retained   geodata.Estimate `json:"retained_mm"` // compost against the lowest board
	Compost    geodata.Estimate `json:"compost_m3"`
	TopAcross  float64          `json:"top_fall_across_percent"`
	TopAlong   float64          `json:"top_fall_along_percent"`
	// RunDownhill and RunUphill are how far an open edge runs from its foot, on the
	// bed's outline, to its top, when dry and, as the high end, when wet; null with
	// boards.
	RunDownhill    *geodata.Estimate `json:"open_edge_run_downhill_mm"`
	RunUphill      *geodata.Estimate `json:"open_edge_run_uphill_mm"`
	BoardUphill    float64           `json:"board_bought_uphill_mm"` // 0: no board
	BoardDownhill  float64           `json:"board_bought_downhill_mm"`
	BoardThickness float64           `json:"board_thickness_mm"`
	BoardLife      geodata.Estimate  `json:"board_life_years"`
	// BoardStress is the part of its strength that the board bears in winter,
	// BoardSag how far it bows between pegs when new and in the end.
	BoardStress float64          `json:"board_stress_over_strength"`
	BoardSag    geodata.Estimate `json:"board_sag_mm"`
	Digging     float64          `json:"digging_litres"` // earth lifted for sunken edges
	// StackUphill and StackDownhill are the boards on one another, bottom first.
	StackUphill   []float64 `json:"boards_uphill_mm"`
	StackDownhill []float64 `json:"boards_downhill_mm"`
	BaysAcross    int       `json:"bays_across"`
	BaysAlong     int       `json:"bays_along"`
	StepRise      float64   `json:"step_rise_mm"`
	CrossBoards   int       `json:"cross_boards"`
	SlipFactor    float64   `json:"slip_factor_winter"`
	Changes       []string  `json:"changes"` // what was changed from the wish, in order
	Notes         []string  `json:"notes"`   // what to heed while building
}

// Pegs are the pegs of one bed.
type Pegs struct {
	Count     int              `json:"count"`
	Spacing   float64          `json:"spacing_mm"`
	Embedment geodata.Estimate `json:"embedment_mm"`
	Length    float64          `json:"length_mm"` // whole peg, point included
	Size      float64          `json:"size_mm"`
	// Factors of safety of the printed depth at the default strength.
	FactorWinter  float64           `json:"factor_winter"`
	FactorDrained float64           `json:"factor_drained"`
	FactorBlocked float64           `json:"factor_blocked"`
	Point         float64           `json:"point_mm"`               // the part of the length cut to a point, below the embedment
	Life          *geodata.Estimate `json:"life_years"`             // null without pegs
	CodeDepth     float64           `json:"code_pole_embedment_mm"` // upper bound by the building code's pole formula
	Positions     []orb.Point       `json:"positions"`
}

// Feature is one drawn fixture as the plan shows it. Lengths are metres and 0
// where they do not apply or were not said.
type Feature struct {
	Kind     string      `json:"kind"` // a geodata.Kind
	Name     string      `json:"name"`
	What     string      `json:"what,omitempty"`    // obstacle: hedge, fence, wall, shed, ...
	Carries  string      `json:"carries,omitempty"` // service: a geodata.Carrier
	Overhead bool        `json:"overhead,omitempty"`
	Points   []orb.Point `json:"points"` // one for a point; a ring need not repeat its first
	Area     bool        `json:"area"`   // Points bound an area
	// ClearanceM is the distance kept free on each side of a service.
	ClearanceM float64 `json:"clearance_m,omitempty"`
	RadiusM    float64 `json:"radius_m,omitempty"` // tree: root protection
	HeightM    float64 `json:"height_m,omitempty"`
}

// Assumption is a default that was used because nothing was said.
type Assumption struct {
	What  string `json:"what"`
	Value string `json:"value"`
	Set   string `json:"set"` // how to say otherwise
}

// Basis is the working behind one figure.
type Basis struct {
	ID      string  `json:"id"` // readable, such as bed-2.pegs.embedment
	Value   float64 `json:"value"`
	Unit    string  `json:"unit"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Formula string  `json:"formula"`
	Source  string  `json:"source"`
	Inputs  []Input `json:"inputs"`
}

// Input is one figure that went into a Basis.
type Input struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	From  string  `json:"from"` // "measured", "given", "default", "computed"
}

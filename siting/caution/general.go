package caution

import "fmt"

// Forces to keep a barrow moving, N, that the Health and Safety Executive
// (HSE, INDG143 and its push and pull page) takes as a filter: 10 kgf for men
// and 7 kgf for women, as it rounds them.
const (
	PushWoman = 70.0
	PushMan   = 100.0
)

// SlipperySlope is the fall, as a ratio, from which wet grass is a hazard to a
// loaded barrow: default of ours. Wet grass can be as slippery as a friction
// of 0.2, a value for tyres.
const SlipperySlope = 0.15

// Conditions say which general cautions apply.
type Conditions struct {
	Push    float64 // greatest force to push a loaded barrow, N; 0 none carried
	Way     float64 // length of the way that it is pushed, m; 0 not known
	PushOn  string  // which way that is; empty: the steepest part
	Slope   float64 // steepest fall where people walk and build, ratio
	Compost bool    // compost or manure is laid
	Boards  bool    // there are boards
	Digging bool    // pegs, sunken edges or trenches
	Channel bool    // a channel leads water aside
	Country string  // as in Site.Place
}

// General gives the cautions that belong to the whole plot, once each and only
// those that apply, in a fixed order.
func General(in Conditions) []Caution {
	var out []Caution
	add := func(applies bool, c Caution) {
		if applies {
			out = append(out, c)
		}
	}
	add(in.Digging, utilities(in.Country))
	add(!(in.Push <= PushWoman), handling(in))
	add(!(in.Slope <= SlipperySlope), wetSlope())
	add(in.Digging && !(in.Slope <= UnstableSlope), unstable(in.Slope))
	add(in.Channel || in.Boards, neighboursWater(in.Channel))
	add(in.Compost, Caution{
		ID: "compost-breathing", Severity: Note, Kind: "compost",
		Text: "Compost can carry Legionella: wear gloves, open bags away from the face, keep it damp, and wash hands; see a doctor about fever or cough within 2 to 10 days. " +
			"Keep tetanus cover up to date.",
		Source: "WorkSafe Queensland and New Zealand health advice; tetanus: from memory",
	})
	add(in.Compost, Caution{
		ID: "compost-weedkiller", Severity: Note, Kind: "compost",
		Text: "Ask the supplier whether manure or compost may hold aminopyralid or clopyralid, which harm peas, beans, carrots, potatoes, tomatoes and lettuce. " +
			"To test, grow peas, beans or tomatoes in half compost for 2 to 3 weeks.",
		Source: "HSE letter on aminopyralid; Washington State University bioassay",
	})
	add(in.Boards, Caution{
		ID: "timber", Severity: Note, Kind: "timber",
		Text: "Use no creosoted sleepers, and no painted, arsenic-treated or unknown wood; refuse pallets stamped MB. " +
			"Newer copper treatments are accepted by many growers: the choice is yours, and the local code rules.",
		Source: "European Commission creosote rule, 2003; the rest from memory",
	})
	add(in.Compost || in.Digging, Caution{
		ID: "ground", Severity: Note, Kind: "ground",
		Text: "On made ground, ash, old orchards or near old painted houses, have the soil tested for lead before growing food. " +
			"If cement sheet fragments turn up they may hold asbestos: stop, wet them, do not break them, and ask someone licensed.",
		Source: "England C4SL for allotments, 80 mg/kg lead; United States EPA 2024, 200 mg/kg (both from memory)",
	})
	return out
}

// firstAsk is whom to ask before digging. The texts name public notification
// services, not programs.
var firstAsk = map[string]string{
	"us": "call 811 and wait for the marks, about 2 working days; it holds for hand digging, planting and posts too",
	"uk": "ask every network operator for its plans",
	"ie": "ask the electricity and gas networks for their plans",
	"ca": "ask the provincial one-call centre",
	"au": "call 1100 before you dig; most states ask it for hand holes too",
	"nz": "call 0800 248 344 before you dig",
}

func utilities(country string) Caution {
	ask, ok := firstAsk[baseCountry(country)]
	if !ok {
		ask = "ask the local notification service and every network operator"
	}
	return Caution{
		ID: "utilities", Severity: Warning, Kind: "utilities",
		Text: fmt.Sprintf("Before any peg or cut, %s. Plans may be wrong, and services on the private side of the meter are seldom marked: have them traced, "+
			"then dig trial holes by hand with an insulated spade, never a pick, fork or power tool.", ask),
		Source: "electricity network operators' published advice; HSE HSG47, 3rd edition 2014; notification services' published rules",
	}
}

// baseCountry is the country of a state's code.
func baseCountry(word string) string {
	at := countryOf(word)
	if len(at) > 3 && at[2] == '-' {
		return at[:2]
	}
	return at
}

// UnstableSlope is the fall, as a ratio, from which signs of moving ground are
// to be looked for, and BareTurf that from which turf is not to be stripped:
// saturated turf steeper than about 24 % stands by its roots alone. Defaults of
// ours.
const (
	UnstableSlope = 0.10
	BareTurf      = 0.20
)

func unstable(slope float64) Caution {
	c := Caution{
		ID: "unstable-ground", Severity: Note, Kind: "unstable ground",
		Text: "Look for cracks along the slope, leaning trees, posts or fences, springs, tipped or made ground, and a cut at the foot of the slope. " +
			"Where there is any of these, build nothing and ask a geotechnical engineer.",
		Source: "usual signs of moving ground, any text on slopes; default of ours",
	}
	if !(slope <= BareTurf) {
		c.Severity = Warning
		c.Text += fmt.Sprintf(" Where the ground falls more than %.0f %%, strip no turf, and leave 0.5 m of it uncut between one sunken edge and the next along the slope: "+
			"wet turf that steep stands by its roots alone.", BareTurf*100)
	}
	return c
}

// neighboursWater warns where water is led, and notes where boards turn it.
func neighboursWater(led bool) Caution {
	c := Caution{
		ID: "neighbours-water", Severity: Note, Kind: "neighbours' water",
		Text: "Boards turn the water that runs on to a bed: see where it goes. Never lead, speed up or gather water on to a neighbour's ground, a road or a footpath. " +
			"Spread it over your own grass 3 m or more before the boundary; the local code and law rule.",
		Source: "New South Wales exempt development code; common law and civil codes elsewhere (from memory); 3 m: default of ours",
	}
	if led {
		c.Severity = Warning
	}
	return c
}

// LongPush is the distance, m, past which a push wants a rest: Health and
// Safety Executive, pushing and pulling.
const LongPush = 20.0

func handling(in Conditions) Caution {
	push, on := in.Push, in.PushOn
	if on == "" {
		on = "the steepest part"
	}
	c := Caution{
		ID: "handling", Severity: Note, Kind: "handling",
		Text: fmt.Sprintf("Pushing a full barrow up %s takes about %.0f newtons. Guidance for keeping a load moving is %.0f newtons for men and %.0f newtons for women: "+
			"make smaller loads, rest often, or go up aslant.", on, push, PushMan, PushWoman),
		Source: "HSE INDG143 and push and pull guidance",
	}
	if in.Way > LongPush {
		c.Text += fmt.Sprintf(" The way is up to %.0f m long: rest at least every %.0f m.", in.Way, LongPush)
	}
	if !(push <= PushMan) {
		c.Severity = Warning
	}
	return c
}

func wetSlope() Caution {
	return Caution{
		ID: "wet-slopes", Severity: Warning, Kind: "wet slopes",
		Text: fmt.Sprintf("Parts of the plot fall more than %.0f %%: take no barrow over wet grass there, cut footholds or steps in the paths, "+
			"and let nobody stand below a loaded barrow.", SlipperySlope*100),
		Source: "default of ours",
	}
}

package soil

// Texture is one of the twelve classes of the United States Department of
// Agriculture's texture triangle, in words.
type Texture string

// The classes, coarsest first.
const (
	Sand          Texture = "sand"
	LoamySand     Texture = "loamy sand"
	SandyLoam     Texture = "sandy loam"
	Loam          Texture = "loam"
	SiltLoam      Texture = "silt loam"
	Silt          Texture = "silt"
	SandyClayLoam Texture = "sandy clay loam"
	ClayLoam      Texture = "clay loam"
	SiltyClayLoam Texture = "silty clay loam"
	SandyClay     Texture = "sandy clay"
	SiltyClay     Texture = "silty clay"
	Clay          Texture = "clay"
)

// Textures lists the classes, coarsest first.
func Textures() []Texture {
	return []Texture{
		Sand, LoamySand, SandyLoam, Loam, SiltLoam, Silt,
		SandyClayLoam, ClayLoam, SiltyClayLoam, SandyClay, SiltyClay, Clay,
	}
}

// TextureNamed is the class of a word, exactly as Textures gives it.
func TextureNamed(word string) (Texture, bool) {
	for _, t := range Textures() {
		if string(t) == word {
			return t, true
		}
	}
	return "", false
}

// The answers to the two questions of the hand test: how long a ribbon of moist
// soil can be pressed out between thumb and finger before it breaks, and how
// wet soil feels when it is rubbed.
const (
	NoBall       = "no ball"
	NoRibbon     = "no ribbon"
	ShortRibbon  = "under 25 mm"
	MiddleRibbon = "25 to 50 mm"
	LongRibbon   = "over 50 mm"

	Gritty  = "gritty"
	Smooth  = "smooth"
	Neither = "neither"
)

// Feels lists the answers to the question of how it feels.
func Feels() []string { return []string{Gritty, Smooth, Neither} }

// TextureByHand is the class of soil that forms a ribbon of such a length and
// feels so when rubbed wet: the flow chart of Thien 1979, Journal of Agronomic
// Education 8:54-55, from memory. The feel is not asked of soil that makes no
// ribbon. ok is false where an answer is not one of the words.
func TextureByHand(ribbon, feel string) (t Texture, ok bool) {
	switch ribbon {
	case NoBall:
		return Sand, true
	case NoRibbon:
		return LoamySand, true
	}
	classes, ok := map[string][3]Texture{
		ShortRibbon:  {SandyLoam, SiltLoam, Loam},
		MiddleRibbon: {SandyClayLoam, SiltyClayLoam, ClayLoam},
		LongRibbon:   {SandyClay, SiltyClay, Clay},
	}[ribbon]
	if !ok {
		return "", false
	}
	for i, f := range Feels() {
		if f == feel {
			return classes[i], true
		}
	}
	return "", false
}

// Group is a hydrologic soil group: A takes most water, D least.
type Group byte

// The groups.
const (
	GroupA Group = 'A'
	GroupB Group = 'B'
	GroupC Group = 'C'
	GroupD Group = 'D'
)

// GroupOf is the group of a texture: TR-55 (1986), appendix A, from memory;
// silt, which it does not name, as silt loam. Ground with the water table within
// 0.6 m in winter is D whatever its texture.
func GroupOf(t Texture) Group {
	switch t {
	case Sand, LoamySand, SandyLoam:
		return GroupA
	case Loam, SiltLoam, Silt:
		return GroupB
	case SandyClayLoam:
		return GroupC
	}
	return GroupD
}

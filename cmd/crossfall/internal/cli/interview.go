package cli

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/soil"
)

// interview asks for everything that the questions of start cover. What is not
// said stays unsaid: the engine then takes its default and names it in every
// result.
type interview struct {
	*asker
	site  geodata.Site
	units measures
}

// run asks every question in order.
func (i *interview) run() error {
	i.say("Enter alone takes what stands in brackets. Nothing is written before the last answer.")
	i.name()
	i.measures()
	i.place()
	i.north()
	i.ground()
	i.beds()
	i.boards()
	i.compost()
	i.services()
	return i.err
}

func (i *interview) name() {
	i.ask("Name of the plot", i.site.Name, func(answer string) error {
		i.site.Name = answer
		return nil
	})
}

func (i *interview) measures() {
	i.site.Units = i.choose("Units of your heights and of your answers:",
		[]option{{"m", "metres, millimetres, litres"}, {"ft", "feet, inches, cubic feet"}}, "m", "m")
	i.units = metric()
	if i.site.Units == "ft" {
		i.units = feetAndInches()
	}
}

func (i *interview) place() {
	i.ask("Latitude in degrees, such as 50.4 or 41.2 S", notSaid, func(answer string) error {
		v, err := latitude(answer)
		if err != nil {
			return err
		}
		i.site.Place.Latitude = &v
		return nil
	})
}

// notSaid is shown where Enter leaves a question open.
const notSaid = "not said"

// latitude reads degrees with a sign, or with N or S behind them.
func latitude(answer string) (float64, error) {
	text, south := strings.CutSuffix(strings.ToUpper(answer), "S")
	if !south {
		text = strings.TrimSuffix(text, "N")
	}
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "°"))
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v >= -90 && v <= 90) || (south && v < 0) {
		return 0, errors.New("write degrees from -90 to 90, or press Enter to leave it out")
	}
	if south {
		v = -v
	}
	return v, nil
}

func (i *interview) north() {
	i.site.Place.North = i.choose("Which way is north? Your y figures grow in one direction. Count its bearing from:",
		[]option{
			{"true", "true north, from a map or from the shadow at midday"},
			{"grid", "the grid lines of a map"},
			{"magnetic", "a compass needle"},
		}, notSaid+": the y axis is taken as north", "")
	if i.site.Place.North == "" {
		return
	}
	i.ask("Bearing of the y axis from that north, degrees clockwise", "0", func(answer string) error {
		v, err := strconv.ParseFloat(answer, 64)
		if err != nil || !(v > -360 && v < 360) {
			return errors.New("write degrees clockwise, between -360 and 360")
		}
		i.site.Place.AxisBearing = &v
		return nil
	})
}

// thumbTests says what the ground does under a thumb or finger.
func thumbTests() []option {
	var out []option
	for _, word := range soil.Words() {
		ground, _ := soil.Named(word)
		out = append(out, option{word, ground.FieldTest})
	}
	return out
}

func (i *interview) ground() {
	i.site.Ground.Thumb = i.choose("The ground under a thumb, in the wettest month, where pegs would stand:",
		thumbTests(), notSaid+": "+soil.DefaultWord+" is taken", "")
	i.site.Ground.Cover = i.choose("What covers the ground now:",
		[]option{{"turf", ""}, {"rough grass", ""}, {"bare", ""}, {"dug", ""}}, notSaid+": turf is taken", "")
}

func (i *interview) beds() {
	i.ask("How many beds", strconv.Itoa(siting.DefaultBedCount), func(answer string) error {
		n, err := strconv.Atoi(answer)
		if _, most, _ := plotfolder.Range("beds.count"); err != nil || n < 1 || float64(n) > most {
			return fmt.Errorf("write a whole number from 1 to %.0f", most)
		}
		i.site.Beds.Count = &n
		return nil
	})
	long, short, b := i.units.long, i.units.short, &i.site.Beds
	i.number("Length of a bed", "beds.length_m", long, long.said(siting.DefaultBedLength), &b.Length)
	i.number("Width of a bed", "beds.width_m", long, long.said(siting.DefaultBedWidth), &b.Width)
	i.number("Least depth of compost", "beds.depth_mm", short, short.said(siting.DefaultFill*1000), &b.Depth)
	i.number("Width of the paths between beds", "beds.path_m", long, long.said(siting.DefaultPath), &b.Path)
}

func (i *interview) boards() {
	long, short, b := i.units.board, i.units.short, &i.site.Boards
	i.numbers("Lengths of boards on sale", "boards.lengths_m", long, long.all(boardLengths), &b.Lengths)
	i.numbers("Heights of boards on sale", "boards.heights_mm", short, short.all(boardHeights), &b.Heights)
	i.numbers("Thicknesses of boards on sale", "boards.thicknesses_mm", short, short.all(boardThicknesses), &b.Thicknesses)
	i.ask("Currency of your prices, such as GBP, EUR or USD", notSaid, func(answer string) error {
		i.site.Compost.Currency = answer
		return nil
	})
	i.number("Price of board", "boards.price_per_m", i.units.perLength, notSaid, &b.PricePerM)
}

func (i *interview) compost() {
	i.number("Price of compost", "compost.price_per_m3", i.units.perVolume, notSaid, &i.site.Compost.PricePerM3)
	i.number("Compost in one barrow load", "carrying.load_litres", i.units.load, i.units.load.said(siting.DefaultLoad), &i.site.Carrying.Load)
}

// The boards that the engine takes when nothing is said, shown as such.
var (
	boardLengths     = []float64{3.6, 4.8}                       // m
	boardHeights     = []float64{150, 175, 200, 225}             // mm
	boardThicknesses = []float64{siting.DefaultThickness * 1000} // mm
)

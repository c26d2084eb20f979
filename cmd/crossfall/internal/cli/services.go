package cli

import (
	"errors"
	"strings"

	"crossfall/geodata"
)

// serviceNames are the seven services in the words of the questions, in the
// order of geodata.Carriers.
func serviceNames() map[geodata.Carrier]string {
	return map[geodata.Carrier]string{
		geodata.Electricity:  "electricity",
		geodata.Gas:          "gas",
		geodata.WaterPipe:    "water",
		geodata.Telecoms:     "telecoms (telephone, television, fibre)",
		geodata.Drain:        "drains and sewers",
		geodata.Oil:          "oil",
		geodata.OtherCarrier: "anything else (garden lighting, watering, old pipes)",
	}
}

// services asks for each service by itself, so that none is passed over.
func (i *interview) services() {
	i.say("Buried and overhead services, on the plot and across its edge. For each, answer")
	i.say("  1  there, drawn: it is there and you will draw it in features.csv")
	i.say("  2  none: there is none, and you can say how you know")
	i.say("  3  don't know")
	i.site.Services = map[geodata.Carrier]string{}
	for _, c := range geodata.Carriers() {
		i.site.Services[c] = i.service(serviceNames()[c])
	}
}

// The words of site.toml for a service.
const (
	serviceDrawn   = "drawn"
	serviceLocated = "located by "
	serviceNone    = "none, known by "
	serviceUnknown = "unknown"
)

// service asks for one service and gives its words for site.toml.
func (i *interview) service(name string) string {
	answer := serviceUnknown
	i.ask("  "+name, "3: don't know", func(typed string) error {
		var err error
		answer, err = serviceAnswer(typed)
		return err
	})
	switch answer {
	case serviceNone:
		return serviceNone + i.must("    how do you know (such as: the supplier's plan of this year)")
	case serviceDrawn:
		i.ask("    how was it located", "it is only drawn", func(how string) error {
			answer = serviceLocated + how
			return nil
		})
	}
	return answer
}

// serviceAnswer understands the number or the words.
func serviceAnswer(typed string) (string, error) {
	switch t := strings.ToLower(strings.ReplaceAll(typed, "’", "'")); {
	case t == "1", t == "there", t == "drawn", t == "there, drawn":
		return serviceDrawn, nil
	case t == "2", t == "none", t == "none, and how i know":
		return serviceNone, nil
	case t == "3", t == "don't know", t == "dont know", t == serviceUnknown:
		return serviceUnknown, nil
	}
	return serviceUnknown, errors.New("answer 1 (there, drawn), 2 (none) or 3 (don't know)")
}

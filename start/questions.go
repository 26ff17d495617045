package start

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"ampstead/quantity"
)

// conversation puts the questions in their order. Each is made from what was
// answered before it.
var conversation = []struct {
	key string
	put func(*plan) Question
}{
	{"name", askName}, {"units", askUnits}, {"winter", askWinter}, {"summer", askSummer}, {"coldest", askKept},
	{"battery", askBattery}, {"groups", askGroups}, {"capacity", askCapacity}, {"modules", askModules},
	{"charge", askCharge}, {"panels", askPanels}, {"chargers", askChargers}, {"inverter", askInverter},
	{"loads", askLoads}, {"guards", askGuards}, {"fuse", askFuse},
}

func askName(*plan) Question {
	return Question{Short: "Name", Ask: "What do you call it?",
		Why:     "The name stands on every page, on the printed book and on the rig's folder.",
		Example: "Heron", Typed: "a name", Sensible: "My rig", Taken: "My rig",
		Unknown: "Called My rig for now; change the name whenever you like.",
		read: func(p *plan, text string) (string, error) {
			if n := utf8.RuneCountInString(text); n > 60 {
				return "", &Problem{Message: fmt.Sprintf("the name has %d characters", n), Expected: "at most 60"}
			}
			p.name = text
			return text, nil
		},
		means: func(p *plan) string { return p.name }}
}

func askUnits(*plan) Question {
	choices := []Choice{{"metric", "Metric", "°C, mm², metres"}, {"us", "US", "°F, AWG, feet"}}
	return Question{Short: "Units", Ask: "Which units do you read?",
		Why:     "Everything can be typed in either; this is how it is shown.",
		Example: "metric", Choices: choices, Sensible: "metric", Taken: "metric",
		Unknown: "Metric is shown; you may still type °F, feet and AWG anywhere.",
		read: func(p *plan, text string) (string, error) {
			value, err := pick(choices, text)
			p.units = quantity.Metric
			if value == "us" {
				p.units = quantity.US
			}
			return value, err
		},
		means: func(p *plan) string {
			if p.units == quantity.US {
				return "US"
			}
			return "metric"
		}}
}

const placeTyped = "a town or weather station nearby, or latitude and longitude"

func askWinter(*plan) Question {
	choices := regionChoices()
	return Question{Short: "Winter", Ask: "Where do you spend the coldest months?",
		Why:     "Winter decides: the least sun, the longest evenings, and frost, in which a lithium battery must not be charged.",
		How:     "A larger town nearby is enough; or pick the part of the world that comes nearest.",
		Example: "Almeria", Choices: choices, Typed: placeTyped, Sensible: "mid-europe", Taken: "mid-europe",
		Unknown: "Taken as the middle of Europe: dark and frosty, so what carries you there carries you through milder winters. Change it before you buy panels by it.",
		read: func(p *plan, text string) (string, error) {
			at, answer, err := findPlace(text)
			if err == nil {
				p.winter = at
			}
			return answer, err
		},
		means: func(p *plan) string {
			return fmt.Sprintf("%s; nights down to about %s", p.winter.name, p.degrees(p.winter.coldNight(p.winter.winterMonths())))
		}}
}

func askSummer(p *plan) Question {
	choices := append([]Choice{{"same", "The same place", "you stay all year"}}, regionChoices()...)
	return Question{Short: "Summer", Ask: "And the warm half of the year?",
		Why:     "Two stays make a year that can be reckoned through at once. More stays, with their dates, can be added later.",
		Example: "Bergen", Choices: choices, Typed: placeTyped, Sensible: "same", Taken: "same",
		Unknown: "Taken as the same place all year round: heat and long days may then be put wrong, winter is not touched by it.",
		read: func(p *plan, text string) (string, error) {
			if strings.EqualFold(text, "same") || strings.EqualFold(text, choices[0].Label) {
				p.summer, p.sameSummer = p.winter, true
				return "same", nil
			}
			at, answer, err := findPlace(text)
			if err == nil {
				p.summer, p.sameSummer = at, false
			}
			return answer, err
		},
		means: func(p *plan) string {
			if p.sameSummer {
				return "the same place all year"
			}
			return p.summer.name
		}}
}

func askBattery(*plan) Question {
	choices := batteryChoices()
	high, low := unknownLimits()
	return Question{Short: "Battery", Ask: "What is the house battery made of?", Trade: "cell chemistry",
		Why:     "Each kind of cell has its own highest and lowest voltage. A setting right for one kind can set another alight.",
		How:     "Look for words on the cells or the case: Li-ion, NMC, LFP, AGM. A seller's word is worth less than the print.",
		Example: "module-flat", Choices: choices, Sensible: Unknown,
		Unknown: fmt.Sprintf("Taken as lithium of an unknown kind and held to what both common kinds bear: never above %.2f V nor below %.2f V a cell. "+
			"Energy, groups and short-circuit current are then guesses: connect nothing before you know.", high, low),
		read: func(p *plan, text string) (string, error) {
			value, err := pick(choices, text)
			if err == nil {
				p.battery = findBattery(value)
			}
			return value, err
		},
		means: func(p *plan) string { return p.battery.short }}
}

func askGroups(p *plan) Question {
	b := p.battery
	question := Question{Short: "Groups in series", Ask: "How many groups of cells sit one after another?", Trade: "groups in series, such as 12s",
		Why:   "Every voltage of every device is this number times the voltage of one cell. One group wrong, and every setting is wrong.",
		How:   "Count the thin measuring wires along the cells and take one off, or count the bars that join one group to the next and add one. Or type the voltage printed on the label; not one you measured.",
		Typed: "the count, or the voltage on the label", Example: "12 or 44 V", Choices: b.counts(), Sensible: Unknown, Taken: strconv.Itoa(b.series),
		Unknown: fmt.Sprintf("Taken as %d, few for such a battery, so that charge voltages come out too low rather than too high. No setting here is yours until you have counted.", b.series),
		read: func(p *plan, text string) (string, error) {
			n, err := p.battery.groups(text)
			if least := int(math.Ceil(leastVolts / p.battery.nominal)); err == nil && n < least {
				err = &Problem{Message: fmt.Sprintf("%d in series is only %s", n, volts(float64(n)*p.battery.nominal)),
					Expected: fmt.Sprintf("%d or more: modules that sit one after another count together", least)}
			}
			if err == nil {
				p.series = n
			}
			return text, err
		},
		means: func(p *plan) string { return fmt.Sprintf("%d in series, about %s", p.series, volts(p.nominal())) }}
	if b.acid {
		question.Short, question.Trade = "Voltage", "2 V cells in series: 6 in a 12 V block"
		question.Ask = "What is the voltage of the whole battery?"
		question.How = "Add up the blocks that sit one after another: two of 12 V make 24 V. Blocks side by side add none."
		question.Example = "24 V"
	}
	return question
}

// leastVolts is the lowest battery that anything here can be fed from.
const leastVolts = 6.0

// counts are the counts one meets.
func (b *battery) counts() []Choice {
	var list []Choice
	for _, n := range b.common() {
		list = append(list, Choice{strconv.Itoa(n), fmt.Sprintf("%d groups", n), "about " + volts(float64(n)*b.nominal)})
		if b.acid {
			list[len(list)-1] = Choice{strconv.Itoa(n), volts(2 * float64(n)), fmt.Sprintf("%d cells of 2 V", n)}
		}
	}
	return list
}

func (b *battery) common() []int {
	switch {
	case b.acid:
		return []int{6, 12, 24}
	case b.value == "iron":
		return []int{4, 8, 16}
	}
	return []int{6, 7, 12, 14}
}

func askCapacity(p *plan) Question {
	b := p.battery
	what := "module"
	if b.acid || b.value == "iron" {
		what = "battery"
	}
	question := Question{Short: "Capacity", Ask: fmt.Sprintf("How much does one %s hold, by its label?", what), Trade: "rated capacity",
		Why:   "How long the lights stay on, and how fast it may be charged.",
		How:   "Amp-hours (Ah) or kilowatt-hours (kWh), as printed. For cells side by side in a group, all of them together.",
		Typed: "Ah or kWh", Example: "94 Ah or 4.1 kWh", Sensible: Unknown, Taken: ampHours(b.ah),
		Unknown: fmt.Sprintf("Taken as %s when new, on the low side. A larger one gives more current into a short than is reckoned here: choose no fuse by this figure.", ampHours(b.ah)),
		read: func(p *plan, text string) (string, error) {
			ah, err := p.battery.capacity(text, p.series)
			if err == nil {
				p.ah = ah
			}
			return text, err
		},
		means: func(p *plan) string {
			return fmt.Sprintf("%s, about %s", ampHours(p.ah), quantity.WattHours.Text(roundTo(p.ah*p.nominal(), 100), quantity.Metric))
		}}
	if b.used {
		question.Unknown += fmt.Sprintf(" Being used, it is reckoned at %.0f %% of that until a test says more.", 100*usedShare)
		question.Why += fmt.Sprintf(" A used module is reckoned at %.0f %% of its label until a test says more.", 100*usedShare)
	}
	return question
}

// usedShare is what a used module is taken to hold of its label until it is
// tested; common practice, no source.
const usedShare = 0.8

func roundTo(v, step float64) float64 { return float64(int(v/step+0.5)) * step }

func askModules(p *plan) Question {
	choices := []Choice{{"1", "One", ""}, {"2", "Two", ""}, {"3", "Three", ""}, {"4", "Four", ""}}
	return Question{Short: "Side by side", Ask: fmt.Sprintf("How many such batteries of %s sit side by side?", volts(p.nominal())), Trade: "strings in parallel",
		Why:   "Side by side they hold more, and one can feed a fault in the other: each then needs a fuse of its own.",
		How:   "Plus joined to plus, minus to minus. Modules that sit one after another were counted with the groups.",
		Typed: "a number", Example: "2", Choices: choices, Sensible: "1", Taken: "1",
		Unknown: "Taken as one alone: the least energy. With more of them, a fuse for each is missing from the findings.",
		read: func(p *plan, text string) (string, error) {
			for _, c := range choices {
				if strings.EqualFold(text, c.Label) {
					text = c.Value
				}
			}
			n, err := strconv.Atoi(text)
			if err != nil || n < 1 || n > 20 {
				return "", &Problem{Message: fmt.Sprintf("%.60q is out of reach", text), Expected: "a whole number from 1 to 20"}
			}
			if n*p.series > 500 || float64(n)*p.ah > 20000 {
				return "", &Problem{Message: fmt.Sprintf("%d such batteries are more than is reckoned with", n), Expected: "at most 500 groups and 20000 Ah in all"}
			}
			p.modules = n
			return text, nil
		},
		means: func(p *plan) string {
			if p.modules == 1 {
				return "one alone"
			}
			return fmt.Sprintf("%d side by side", p.modules)
		}}
}

func askKept(p *plan) Question {
	cold := p.degrees(p.winter.coldNight(p.winter.winterMonths()))
	choices := []Choice{
		{"heated", "Inside the heated living space", fmt.Sprintf("taken as no colder than %s, while somebody lives there", p.degrees(heatedC))},
		{"cold", "In an unheated locker, or under the floor", fmt.Sprintf("as cold as the night: about %s in winter", cold)},
	}
	return Question{Short: "Where it lives", Ask: "Where does the battery live, and how cold can it get there?",
		Why:     "Charged in frost, a lithium cell loses capacity for good and becomes easier to set alight.",
		How:     "A thermometer left there on a cold night tells best.",
		Example: "-4 °C", Choices: choices, Typed: "how cold the battery itself gets", Sensible: "cold", Taken: "cold",
		Unknown: fmt.Sprintf("Taken to get as cold as a cold night outside, about %s: no warmth is counted on.", cold),
		read: func(p *plan, text string) (string, error) {
			value, err := pick(choices, text)
			if err == nil {
				p.keeps = value
				return value, nil
			}
			t, err := amount(quantity.Celsius, text, -60, 50)
			if err == nil {
				p.keeps, p.typedCold = "", t
			}
			return text, err
		},
		means: func(p *plan) string {
			text := "down to " + p.degrees(p.bankCold(p.winter, p.winter.winterMonths()))
			switch p.keeps {
			case "heated":
				return "heated living space, " + text
			case "cold":
				return "unheated, " + text
			}
			return text
		}}
}

package start

import (
	"fmt"
	"slices"
	"strings"

	"ampstead/quantity"
)

func askCharge(*plan) Question {
	choices := []Choice{
		{"solar", "Solar panels on the roof", ""},
		{"alternator", "The engine's alternator, through a charger", "a dc-dc charger between the two batteries"},
		{"mains", "A mains charger on hook-up", ""},
		{None, "Nothing yet", ""},
	}
	return Question{Short: "Charged by", Ask: "What charges it?", Trade: "charge sources",
		Why:     "Each charger must stop by itself at the right voltage and in frost, and something else must stop it when it does not.",
		Example: "solar, alternator", Choices: choices, Many: true, Sensible: "solar", Taken: "solar, alternator, mains",
		Unknown: "Taken as all three, so that what each could do wrong is looked at.",
		read: func(p *plan, text string) (string, error) {
			list, err := several(choices, text, nil)
			if err != nil {
				return "", err
			}
			p.sources = slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == None })
			return strings.Join(list, ", "), nil
		},
		means: func(p *plan) string { return orNothing(p.sources) }}
}

func orNothing(list []string) string {
	if len(list) == 0 {
		return "nothing yet"
	}
	return listed(list)
}

func askPanels(*plan) Question {
	return Question{Short: "On the roof", Ask: "How many watts of panels are on the roof?", Trade: "rated power, watt-peak",
		Why:   "With sun and place this gives the energy of every day of the year.",
		How:   "On the back of each panel. Type the total, or how many of what: 2 x 330 W.",
		Typed: "watts", Example: "2 x 330 W", Sensible: "400 W", Taken: "200 W",
		Unknown: "Taken as 200 W in all, on the low side: a winter that looks too lean may be a roof that is larger.",
		applies: func(p *plan) bool { return p.solar() },
		read: func(p *plan, text string) (string, error) {
			n, w, err := panels(text)
			if err == nil {
				err = p.within(float64(max(1, n))*w, mostSolar)
			}
			if err == nil {
				p.count, p.watts = n, w
			}
			return text, err
		},
		means: func(p *plan) string {
			if p.count > 0 {
				return fmt.Sprintf("%d × %s, %s in all", p.count, watts(p.watts), watts(float64(p.count)*p.watts))
			}
			return watts(p.watts) + " in all"
		}}
}

func askChargers(*plan) Question {
	choices := []Choice{
		{"lead-acid", "For lead-acid, as they came", "flooded, AGM or gel on their display"},
		{"lithium", "A lithium profile", "LFP or Li on their display"},
		{"own", "Voltages somebody set by hand", "user, own or custom on their display"},
	}
	return Question{Short: "Chargers set", Ask: "What are the chargers set for today?", Trade: "charge profile",
		Why:     "A lead-acid setting can carry a lithium cell past its limit. It is the first thing looked at.",
		How:     "On each charger's display, in its app, or by its little switches. If they differ, choose the one nearest to lead-acid.",
		Example: "lead-acid", Choices: choices, Sensible: "lead-acid", Taken: "lead-acid",
		Unknown: "Taken as still set for lead-acid. The findings then say stop, until somebody has looked.",
		applies: func(p *plan) bool { return len(p.sources) > 0 && !p.battery.acid },
		read: func(p *plan, text string) (string, error) {
			value, err := pick(choices, text)
			if err == nil {
				p.chargers = value
			}
			return value, err
		},
		means: func(p *plan) string {
			return map[string]string{"lead-acid": "for lead-acid", "lithium": "a lithium profile", "own": "voltages set by hand"}[p.chargers]
		}}
}

func askInverter(*plan) Question {
	choices := []Choice{{None, "There is none", ""}, {"500 W", "500 W", ""}, {"1000 W", "1000 W", ""}, {"2000 W", "2000 W", ""}, {"3000 W", "3000 W", ""}}
	return Question{Short: "Inverter", Ask: "Does something make mains out of the battery? How strong is it?", Trade: "inverter",
		Why:     "It draws the largest current of all: cables, main fuse and the battery itself are chosen by it.",
		How:     "The watts it gives for long, on its label; not the larger figure for a few seconds.",
		Example: "2000 W", Choices: choices, Typed: "watts", Sensible: "1000 W", Taken: "2000 W",
		Unknown: "Taken as one of 2000 W, so that cables and fuse come out strong rather than weak.",
		read: func(p *plan, text string) (string, error) {
			if v, err := pick(choices[:1], text); err == nil {
				p.inverter = 0
				return v, nil
			}
			w, err := amount(quantity.Watts, text, 20, 20000)
			if err == nil {
				err = p.within(w, mostInverter)
			}
			if err == nil {
				p.inverter = w
			}
			return text, err
		},
		means: func(p *plan) string {
			if p.inverter == 0 {
				return "none"
			}
			return watts(p.inverter)
		}}
}

func askLoads(p *plan) Question {
	choices := applianceChoices()
	question := Question{Short: "What runs", Ask: "What do you run from it, most days?", Trade: "loads by habit",
		Why:     "Against the sun of each month this says which nights come up short.",
		How:     "Watts and hours are typical ones; put in yours afterwards.",
		Example: "lights, fridge, sewing machine 90 W 2 h", Choices: choices, Many: true,
		Typed: "anything else: what it is, its watts, its time a day", Sensible: "lights, fridge, pump, phones", Taken: modest,
		Unknown: "Taken as a modest household: lights, fridge, pump, phones, a laptop and the fan of a heater.",
		read: func(p *plan, text string) (string, error) {
			list, err := several(choices, text, func(own string) error { _, err := typedLoad(own); return err })
			if err != nil {
				return "", err
			}
			var loads []load
			direct := 0.0
			for _, value := range list {
				l, err := findLoad(value)
				if value == None {
					continue
				}
				if err != nil {
					return "", err
				}
				loads = append(loads, l)
				if feed := p.feed(l); feed != "" && feed != inverterName {
					direct += l.watts
				}
			}
			if err := p.withinDirect(direct); err != nil {
				return "", err
			}
			p.loads = loads
			return strings.Join(list, ", "), nil
		},
		means: func(p *plan) string {
			var names []string
			for _, l := range p.loads {
				names = append(names, strings.ToLower(l.label))
			}
			return orNothing(names)
		}}
	if p.inverter == 0 {
		question.How += " What needs mains waits for an inverter."
	}
	return question
}

func askGuards(*plan) Question {
	choices := []Choice{
		{"meter", "A cell meter that shows every group and warns", "one thin wire to each group"},
		{"relay", "A voltage relay that opens a heavy switch", "relay and contactor"},
		{"board", "A protection board built into the battery", "battery management system (BMS) with a switch of its own"},
		{"frost", "A switch that stops charging in frost", "by a thermometer on the battery itself"},
		{"pad", "A heater pad under the battery", ""},
		{None, "None of these", ""},
	}
	return Question{Short: "Watched by", Ask: "What watches over the cells already?", Trade: "protection",
		Why:     "When a charger sticks on or a load is forgotten, one of these must act by itself. Ampstead reckons; it cannot act.",
		Example: "meter, relay", Choices: choices, Many: true, Sensible: None, Taken: None,
		Unknown: "Taken as nothing at all. The findings then ask for each layer that is missing.",
		applies: func(p *plan) bool { return !p.battery.acid },
		read: func(p *plan, text string) (string, error) {
			list, err := several(choices, text, nil)
			if err != nil {
				return "", err
			}
			p.guards = slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == None })
			return strings.Join(list, ", "), nil
		},
		means: func(p *plan) string {
			var names []string
			for _, g := range p.guards {
				names = append(names, guardWords[g])
			}
			return orNothing(names)
		}}
}

var guardWords = map[string]string{"meter": "cell meter", "relay": "relay and contactor", "board": "protection board",
	"frost": "frost switch", "pad": "heater pad"}

func askFuse(*plan) Question {
	choices := []Choice{{None, "There is none", ""}, {"100 A", "100 A", ""}, {"150 A", "150 A", ""}, {"200 A", "200 A", ""}, {"250 A", "250 A", ""}}
	return Question{Short: "Main fuse", Ask: "Is there a main fuse right at the battery? Of how many amperes?", Trade: "main fuse",
		Why:     "A short can draw thousands of amperes. Only a fuse made to break such a current, close to the battery, ends it.",
		How:     "The rating printed on it. What it can break is printed there too: write that in afterwards.",
		Example: "150 A", Choices: choices, Typed: "amperes", Sensible: None, Taken: None,
		Unknown: "Taken as not there. The findings then say stop: a battery without a main fuse is not to be connected.",
		read: func(p *plan, text string) (string, error) {
			if v, err := pick(choices[:1], text); err == nil {
				p.fuse = 0
				return v, nil
			}
			a, err := amount(quantity.Amperes, text, 1, 2000)
			if err == nil {
				p.fuse = a
			}
			return text, err
		},
		means: func(p *plan) string {
			if p.fuse == 0 {
				return "none"
			}
			return amperes(p.fuse)
		}}
}

package start

import (
	"fmt"
	"slices"
	"strings"
)

// Part is one thing in the picture of a rig that is being described.
type Part struct {
	Given bool   // answered, be it with "I do not know"
	Open  bool   // answered with "I do not know"
	Asked bool   // being asked now
	None  bool   // there is none of it
	Text  string // what to write beside it; empty until answered
}

// Sketch is what the picture of the answers so far shows.
type Sketch struct {
	Name                         Part
	Winter, Summer               Part
	WinterCold, SummerCold       string
	OnePlace                     bool
	Battery, Groups, Capacity    Part
	Series, Modules              int // to draw: a usual bank until it is answered
	Kept                         Part
	Cold                         bool // it lives where nothing is heated
	Solar, Alternator, Mains     Part
	Panels                       int
	Inverter, Loads              Part
	Guards, Meter, Relay, Switch Part // all of them; a meter or board; a relay or board; a frost switch
	Pad                          Part
	Fuse                         Part
	Said                         string // everything answered, in a sentence each
}

// Draw says what the picture shows after the answers so far; asking is the key of
// the question that is being put, or empty.
func Draw(a Answers, asking string) Sketch {
	p, list := follow(a)
	d := drawer{plan: p, answers: a, asking: asking}
	s := Sketch{Series: p.series, Modules: p.modules, Panels: 2, OnePlace: p.sameSummer, Cold: p.keeps != "heated"}
	s.Name = d.part("name", p.name)
	s.Winter = d.part("winter", p.winter.name)
	s.Summer = d.part("summer", p.summer.name)
	s.WinterCold = "nights to " + p.degrees(p.winter.coldNight(p.winter.winterMonths()))
	s.SummerCold = "nights to " + p.degrees(p.summer.coldNight(p.summer.summerMonths()))
	s.Battery = d.part("battery", p.battery.short)
	s.Groups = d.part("groups", fmt.Sprintf("%s, %s", many(p.series, "group", "groups"), volts(p.nominal())))
	if p.battery.acid {
		s.Groups.Text = volts(p.nominal())
	}
	s.Capacity = d.part("capacity", ampHours(p.ah))
	if m := d.part("modules", ""); m.Given && p.modules > 1 {
		s.Capacity.Text += fmt.Sprintf(" × %d", p.modules)
	} else if m.Asked {
		s.Capacity.Asked = true
	}
	s.Kept = d.part("coldest", "down to "+p.degrees(p.bankCold(p.winter, p.winter.winterMonths())))
	d.sources(&s)
	s.Inverter = d.part("inverter", watts(p.inverter)+" inverter")
	s.Inverter.None = s.Inverter.Given && p.inverter == 0
	s.Loads = d.part("loads", d.loadNames())
	s.Loads.None = s.Loads.Given && len(p.loads) == 0
	d.guards(&s)
	if !s.Groups.Given {
		s.Series = 12
	}
	s.Said = d.said(list)
	return s
}

type drawer struct {
	plan    *plan
	answers Answers
	asking  string
}

func (d *drawer) part(key, text string) Part {
	answer := d.answers[key]
	part := Part{Given: answer != "", Open: answer == Unknown, Asked: key == d.asking}
	switch {
	case part.Open:
		part.Text = text + "?"
	case part.Given:
		part.Text = text
	}
	return part
}

func (d *drawer) sources(s *Sketch) {
	one := func(kind, text string) Part {
		part := d.part("charge", text)
		part.None = part.Given && !slices.Contains(d.plan.sources, kind)
		return part
	}
	s.Solar = one("solar", "solar panels")
	s.Alternator = one("alternator", "alternator charger")
	s.Mains = one("mains", "mains hook-up")
	roof := d.part("panels", watts(d.plan.roofWatts())+" of panels")
	s.Solar.Asked = s.Solar.Asked || roof.Asked
	if roof.Given && !s.Solar.None {
		s.Solar.Text, s.Solar.Open = roof.Text, roof.Open
		layout := d.plan.roof()
		s.Panels = layout.series * layout.parallel
	}
	if d.asking == "chargers" {
		s.Solar.Asked, s.Alternator.Asked, s.Mains.Asked = true, true, true
	}
}

// roofWatts is all of the roof's power.
func (p *plan) roofWatts() float64 {
	if p.count > 0 {
		return float64(p.count) * p.watts
	}
	return p.watts
}

func (d *drawer) loadNames() string {
	var names []string
	for _, l := range d.plan.loads {
		if l.typed {
			names = append(names, l.label)
			continue
		}
		names = append(names, strings.ReplaceAll(l.value, "-", " "))
	}
	return strings.Join(names, ", ")
}

func (d *drawer) guards(s *Sketch) {
	one := func(text string, which ...string) Part {
		part := d.part("guards", text)
		part.None = part.Given && !slices.ContainsFunc(which, func(g string) bool { return slices.Contains(d.plan.guards, g) })
		return part
	}
	var names []string
	for _, g := range d.plan.guards {
		names = append(names, guardWords[g])
	}
	s.Guards = d.part("guards", strings.Join(names, ", "))
	s.Guards.None = s.Guards.Given && len(names) == 0
	s.Meter = one("", "meter", "board")
	s.Relay = one("", "relay", "board")
	s.Switch = one("", "frost")
	s.Pad = one("", "pad")
	s.Fuse = d.part("fuse", amperes(d.plan.fuse)+" fuse")
	s.Fuse.None = s.Fuse.Given && d.plan.fuse == 0
}

// said puts the answers in words, for those who do not see the picture.
func (d *drawer) said(list []Question) string {
	var parts []string
	for i := range list {
		q := &list[i]
		switch answer := d.answers[q.Key]; answer {
		case "":
		case Unknown:
			parts = append(parts, q.Short+": not known, taken as "+q.meaning(d.plan))
		default:
			parts = append(parts, q.Short+": "+q.meaning(d.plan))
		}
	}
	if len(parts) == 0 {
		return "Nothing is answered yet."
	}
	return strings.Join(parts, ". ") + "."
}

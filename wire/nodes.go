package wire

import (
	"fmt"

	"ampstead/circuit"
	"ampstead/rig"
)

// nodes lists what stands on the diagram, from the bank outwards.
func (s *study) nodes() {
	b := &s.rig.Bank
	add := func(name, kind, detail, path string) {
		s.res.Nodes = append(s.res.Nodes, Node{Name: name, Kind: kind, Detail: detail, Path: path})
	}
	if n := s.short.Strings; n > 1 {
		add(KindModules, KindModules, fmt.Sprintf("%d in parallel, %d groups in series each", n, b.Series), "bank.strings")
	}
	add(circuit.AtBank, KindBank, fmt.Sprintf("%d groups of %s, %s to %s", b.Series, b.Cell, volts(s.res.LowV), volts(s.res.TopV)), "bank")
	if s.endOf(circuit.AtBus) != nil {
		add(circuit.AtBus, KindBus, "bus bars", "")
	}
	for _, d := range s.devices {
		add(d.name, d.kind, d.detail, d.path)
	}
	for i := range s.rig.Charge {
		c := &s.rig.Charge[i]
		for k := range c.Panels {
			add(panelNode(c, k), KindPanels, s.panelDetail(&c.Panels[k]), panelPath(c, k))
		}
	}
	s.others()
}

// others adds what a cable leads to and no list above has.
func (s *study) others() {
	known := map[string]bool{}
	for _, n := range s.res.Nodes {
		known[n.Name] = true
	}
	for _, r := range s.runs {
		for _, name := range []string{r.From, r.To} {
			if !known[name] {
				known[name] = true
				s.res.Nodes = append(s.res.Nodes, Node{Name: name, Kind: s.kindOf(name)})
			}
		}
	}
}

func (s *study) panelDetail(p *rig.PanelString) string {
	text := fmt.Sprintf("%d in series of %s", p.Series, s.watts(float64(*p.Power)))
	if p.Parallel > 1 {
		text += fmt.Sprintf(", %d in parallel", p.Parallel)
	}
	return text
}

func panelPath(c *rig.Source, k int) string {
	if name := c.Panels[k].Name; name != "" {
		return fmt.Sprintf("charge.%s.panels.%s", c.Name, name)
	}
	return fmt.Sprintf("charge.%s.panels.%d", c.Name, k)
}

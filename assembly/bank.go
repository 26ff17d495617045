package assembly

import (
	"ampstead/physics/bank"
	"ampstead/physics/cell"
	q "ampstead/quantity"
	"ampstead/rig"
)

// What is taken of a bank and its box when the file does not say; ours.
const (
	lithiumWhPerKg = 130   // of modules as they come out of vehicles
	acidWhPerKg    = 35    // of lead-acid batteries
	foam           = 0.035 // W/m/K, insulation of no known kind
	inner, outer   = 8.0, 10.0
	neighbour      = 2.0 // W/K between two groups side by side
	noBoxLoss      = 3.0 // W/K of a bank that stands free
)

func (b *builder) bank() (*bank.Bank, error) {
	in, c := &b.rig.Bank, b.fit.Cell
	s := bank.Spec{
		Cell: b.fit.Kind, Table: b.o.Table, Series: in.Series,
		CapacityAh: c.Capacity, ResistanceOhm: c.Ohm, LinksOhm: b.links(),
		MassKg: b.mass(), LossWPerK: b.loss(), NeighbourWPerK: neighbour,
		SoC: b.o.SoC, TempC: b.o.TempC,
	}
	b.out.HeatJPerK = s.MassKg * s.Cell.SpecificHeat.Value
	if !c.Measured {
		b.assume("the bank's capacity is %s, %s, not measured", q.AmpereHours.Text(c.Capacity, q.Metric), c.Basis)
	}
	b.groups(&s)
	b.spread(&s)
	return bank.New(s)
}

// links is the resistance of the joints of all strings side by side.
func (b *builder) links() float64 {
	return or(b.rig.Bank.Links, 0) / float64(max(1, b.rig.Bank.Strings))
}

// groups takes each group's own readings: capacity and resistance where every
// group has one, charge behind the fullest and leak where any has.
func (b *builder) groups(s *bank.Spec) {
	m := b.rig.Bank.Measured
	if m == nil || len(m.Groups) != s.Series {
		return
	}
	s.GroupCapacityAh = ofAll(m.Groups, func(g rig.GroupReading) *q.Charge { return g.Capacity })
	s.GroupResistanceOhm = ofAll(m.Groups, func(g rig.GroupReading) *q.Resistance { return g.Resistance })
	s.LeakA = ofAny(m.Groups, func(g rig.GroupReading) *q.Current { return g.Leak })
	if behind := ofAny(m.Groups, func(g rig.GroupReading) *q.Charge { return g.Behind }); behind != nil {
		s.GroupSoC = standing(s, behind)
	}
}

// standing is the state of charge of groups that stand behind the fullest by so
// many Ah: all have given the same charge since the fullest was full.
func standing(s *bank.Spec, behind []float64) []float64 {
	soc := make([]float64, s.Series)
	given := (1 - s.SoC) * s.CapacityAh
	for k := range soc {
		ah := s.CapacityAh
		if s.GroupCapacityAh != nil {
			ah = s.GroupCapacityAh[k]
		}
		soc[k] = 1 - (given+behind[k])/ah
	}
	return soc
}

// ofAll lists one reading of every group, nil where one has none.
func ofAll[Q ~float64](groups []rig.GroupReading, read func(rig.GroupReading) *Q) []float64 {
	list := make([]float64, len(groups))
	for k, g := range groups {
		v := read(g)
		if v == nil {
			return nil
		}
		list[k] = float64(*v)
	}
	return list
}

// ofAny lists one reading of every group, zero where there is none; nil where no
// group has one.
func ofAny[Q ~float64](groups []rig.GroupReading, read func(rig.GroupReading) *Q) []float64 {
	list := make([]float64, len(groups))
	found := false
	for k, g := range groups {
		if v := read(g); v != nil {
			list[k], found = float64(*v), true
		}
	}
	if !found {
		return nil
	}
	return list
}

// spread starts one group above and one below the rest by the spread that fit
// reckons with. Lead-acid shows no groups.
func (b *builder) spread(s *bank.Spec) {
	c := b.fit.Kind
	if s.Series < 3 || c.Family == cell.LeadAcid || s.GroupCapacityAh != nil || s.GroupSoC != nil {
		return
	}
	s.GroupSoC = make([]float64, s.Series)
	for k := range s.GroupSoC {
		s.GroupSoC[k] = s.SoC
	}
	high, low := c.DailyHighV.Value, c.DailyLowV.Value
	s.GroupSoC[s.Series/4] += c.Curve.SoC(high+b.fit.Cell.SpreadHi) - c.Curve.SoC(high)
	s.GroupSoC[s.Series/2] -= c.Curve.SoC(low) - c.Curve.SoC(low-b.fit.Cell.SpreadLo)
}

func (b *builder) mass() float64 {
	if m := b.rig.Bank.Mass; m != nil {
		return float64(*m)
	}
	c := b.fit.Kind
	perKg := float64(lithiumWhPerKg)
	if c.Family == cell.LeadAcid {
		perKg = acidWhPerKg
	}
	kg := b.fit.Cell.RatedAh * c.NominalV.Value * float64(b.rig.Bank.Series) / perKg
	b.assume("bank.mass is not given: %s, as of %g Wh/kg", q.Kilograms.Text(kg, q.Metric), perKg)
	return kg
}

// loss is the heat the bank loses to the air around its box, W/K.
func (b *builder) loss() float64 {
	box := b.rig.Bank.Box
	if box == nil {
		b.assume("bank.box is not given: the bank stands free and loses %g W/K", noBoxLoss)
		b.out.LossWPerK = noBoxLoss
		return noBoxLoss
	}
	conductivity := or(box.Conductivity, foam)
	if box.Conductivity == nil && box.Insulation != nil {
		b.assume("bank.box.conductivity is not given: %g W/m/K", foam)
	}
	b.out.LossWPerK = bank.LossWPerK(boxArea(box), or(box.Insulation, 0), conductivity, inner, outer)
	return b.out.LossWPerK
}

// boxArea is the area of the box's walls, m².
func boxArea(box *rig.Box) float64 {
	l, w, h := float64(*box.Length), float64(*box.Width), float64(*box.Height)
	return 2 * (l*w + l*h + w*h)
}

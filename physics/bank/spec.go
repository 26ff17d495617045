package bank

import (
	"fmt"
	"math"

	"ampstead/physics/cell"
)

// Spec is a bank in plain numbers. Lists by group run from the negative end;
// an absent list means all groups are alike.
type Spec struct {
	Cell  *cell.Cell
	Table *Table // of the same cell, to share between banks; nil builds one

	Series        int
	CapacityAh    float64 // of the whole bank, which is that of one group
	ResistanceOhm float64 // 10 s, 25 °C, at the bank's terminals with links; 0 takes the cell's typical figure
	LinksOhm      float64 // joints and links between groups, all together

	GroupCapacityAh    []float64
	GroupResistanceOhm []float64 // 10 s, 25 °C, without links
	GroupTauS          []float64 // time constant of the slow branch
	LeakA              []float64 // steady loss inside a group, positive drains

	MassKg         float64   // of the cells
	SpecificHeat   float64   // J/kg/K; 0 takes the cell's
	LossWPerK      float64   // from the whole bank to its surroundings, shared equally
	NeighbourWPerK float64   // between two groups side by side
	HeaterShare    []float64 // of the heater's power by group, adding to 1

	SoC      float64
	GroupSoC []float64
	TempC    float64
}

// New makes a rested bank. Errors: no cell or curve, no group, a list of the
// wrong length, or a number outside what makes sense.
func New(s Spec) (*Bank, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	table := s.Table
	if table == nil {
		var err error
		if table, err = NewTable(s.Cell); err != nil {
			return nil, err
		}
	}
	b := &Bank{
		table: table, linksOhm: s.LinksOhm, neighbour: s.NeighbourWPerK,
		groups: make([]group, s.Series),
		volts:  make([]float64, s.Series), temps: make([]float64, s.Series+1), socs: make([]float64, s.Series),
	}
	for i := range b.groups {
		b.groups[i] = s.group(i)
		b.groups[i].branch = b.branchOf(pick(s.GroupTauS, i, s.Cell.SlowTauS.Value))
	}
	b.Reset(nil, s.TempC)
	return b, nil
}

// branchOf finds or adds the slow branch of a time constant.
func (b *Bank) branchOf(tau float64) int {
	for k := range b.branches {
		if b.branches[k].tau == tau {
			return k
		}
	}
	b.branches = append(b.branches, branch{tau: tau})
	return len(b.branches) - 1
}

func (s *Spec) group(i int) group {
	n := float64(s.Series)
	heat := s.SpecificHeat
	if heat == 0 {
		heat = s.Cell.SpecificHeat.Value
	}
	g := group{
		capacity: 3600 * pick(s.GroupCapacityAh, i, s.CapacityAh),
		leak:     pick(s.LeakA, i, 0),
		warmth:   s.MassKg * heat / n,
		loss:     s.LossWPerK / n,
		share:    pick(s.HeaterShare, i, 1/n),
		soc:      pick(s.GroupSoC, i, s.SoC),
	}
	g.fast25, g.slow25 = s.Cell.Split(s.groupOhm(i, g.capacity/3600))
	return g
}

func (s *Spec) groupOhm(i int, ah float64) float64 {
	if s.GroupResistanceOhm != nil {
		return s.GroupResistanceOhm[i]
	}
	if s.ResistanceOhm > 0 {
		return (s.ResistanceOhm - s.LinksOhm) / float64(s.Series)
	}
	return s.Cell.ResistanceOhm(ah, 25)
}

func pick(list []float64, i int, all float64) float64 {
	if list == nil {
		return all
	}
	return list[i]
}

func (s *Spec) check() error {
	if s.Cell == nil {
		return fmt.Errorf("bank: no cell given")
	}
	if s.Series < 1 {
		return fmt.Errorf("bank: %d groups in series; expected at least one", s.Series)
	}
	if err := s.checkLists(); err != nil {
		return err
	}
	if s.ResistanceOhm > 0 && s.GroupResistanceOhm == nil && s.ResistanceOhm <= s.LinksOhm {
		return fmt.Errorf("bank: its links (%g Ω) resist as much as the whole bank (%g Ω)", s.LinksOhm, s.ResistanceOhm)
	}
	for i := range s.Series {
		if err := s.checkGroup(i); err != nil {
			return err
		}
	}
	return nil
}

func (s *Spec) checkLists() error {
	lists := []struct {
		name string
		list []float64
	}{
		{"capacities", s.GroupCapacityAh}, {"resistances", s.GroupResistanceOhm}, {"time constants", s.GroupTauS},
		{"leaks", s.LeakA}, {"heater shares", s.HeaterShare}, {"states of charge", s.GroupSoC},
	}
	for _, l := range lists {
		if l.list != nil && len(l.list) != s.Series {
			return fmt.Errorf("bank: %d %s for %d groups", len(l.list), l.name, s.Series)
		}
	}
	return s.checkShares()
}

func (s *Spec) checkShares() error {
	sum := 0.0
	for _, share := range s.HeaterShare {
		sum += share
	}
	if s.HeaterShare != nil && !(math.Abs(sum-1) < 1e-6) {
		return fmt.Errorf("bank: heater shares add to %g; expected 1", sum)
	}
	return nil
}

// quickest is the fastest change of temperature (1/s) that is stepped: groups
// that share heat faster are one group.
const quickest = 1

func (s *Spec) checkGroup(i int) error {
	g := s.group(i)
	rules := []struct {
		name  string
		value float64
		low   float64
		open  bool // low itself is not allowed
	}{
		{"capacity", g.capacity, 0, true}, {"time constant", pick(s.GroupTauS, i, s.Cell.SlowTauS.Value), 0, true}, {"heat capacity", g.warmth, 0, true},
		{"fast resistance", g.fast25, 0, false}, {"slow resistance", g.slow25, 0, false},
		{"heat loss", g.loss, 0, false}, {"conduction between groups", s.NeighbourWPerK, 0, false},
		{"heater share", g.share, 0, false}, {"links", s.LinksOhm, 0, false},
		{"leak", g.leak, math.Inf(-1), true}, {"state of charge", g.soc, -1, false}, {"temperature", s.TempC, -273.15, true},
	}
	for _, r := range rules {
		if !(r.value > r.low || !r.open && r.value == r.low) || math.IsInf(r.value, 1) {
			return fmt.Errorf("bank: group %d: %s is %g", i+1, r.name, r.value)
		}
	}
	if rate := (g.loss + 4*s.NeighbourWPerK) / g.warmth; rate > quickest {
		return fmt.Errorf("bank: group %d: conduction or loss of %g W/K is too much for the heat it holds", i+1, rate*g.warmth)
	}
	return nil
}

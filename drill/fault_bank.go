package drill

import (
	"fmt"

	"ampstead/circuit"
)

// weakGroups are the groups faults are set in: the one that stands highest and
// the one that stands lowest, where assembly puts them, or the smallest where
// each was measured.
func (f *faulty) weakGroups() (high, low int) {
	n := f.a.Bank.Groups()
	least := 0
	alike := true
	for k := range n {
		if f.a.Bank.CapacityAh(k) != f.a.Bank.CapacityAh(0) {
			alike = false
		}
		if f.a.Bank.CapacityAh(k) < f.a.Bank.CapacityAh(least) {
			least = k
		}
	}
	if !alike {
		return least, least
	}
	socs := f.a.Bank.SoCs()
	for k := range n {
		if socs[k] > socs[high] {
			high = k
		}
		if socs[k] < socs[low] {
			low = k
		}
	}
	return high, low
}

// groupName counts groups as people do, from the negative end.
func groupName(k int) string { return fmt.Sprintf("group %d", k+1) }

// bank makes the faults inside the bank.
func (f *faulty) bank() {
	high, low := f.weakGroups()
	f.leak(low)
	f.lost(high)
	if low != high {
		f.lost(low)
	}
	f.openedLink(high)
}

// leak adds to what a group was measured to leak.
func (f *faulty) leak(group int) {
	amps := f.a.Bank.CapacityAh(group) / leakHours
	if m := f.rig.Bank.Measured; m != nil && group < len(m.Groups) && m.Groups[group].Leak != nil {
		amps += float64(*m.Groups[group].Leak)
	}
	f.add(groupName(group), "leaks", "leaking group", false, func(t *turn) { t.a.Bank.SetLeak(group, amps) },
		"it loses %.3g mA inside, enough to empty it in %.4g days; a leak many times that empties it whatever is switched off, and only looking after the bank finds it", 1000*amps, f.a.Bank.CapacityAh(group)/amps/24)
}

func (f *faulty) lost(group int) {
	f.add(groupName(group), "lost capacity", "lost capacity", false, func(t *turn) {
		t.a.Bank.SetCapacity(group, leftShare*t.a.Bank.CapacityAh(group))
	}, "it holds %s of what it did, and is as full as the others when the scene begins", percent(leftShare))
}

// openedLink is one cell that no longer carries. The bank is stepped as groups,
// all strings together; how its neighbours share the current follows from how
// many they are.
func (f *faulty) openedLink(group int) {
	cells, strings := max(1, f.rig.Bank.CellsPerGroup), max(1, f.rig.Bank.Strings)
	const what, kind = "link to one cell open", "opened link"
	name := groupName(group)
	switch {
	case cells > 1:
		left := float64(cells*strings-1) / float64(cells*strings)
		f.add(name, what, kind, false, func(t *turn) {
			t.weaken(group, left)
			t.share = max(t.share, float64(cells)/float64(cells-1))
		}, "one of its %d cells in parallel no longer carries: it holds and conducts less by that share, and the others in its string carry more", cells*strings)
	case strings > 1:
		f.add(name, what, kind, false, func(t *turn) { t.loseString(strings) },
			"with one cell to a group, its string is open and carries nothing: the bank is left with %d of %d strings", strings-1, strings)
	default:
		f.add(name, what, kind, true, func(t *turn) { t.e.OpenMain() }, "with a single cell to a group the bank is open")
	}
}

// weaken leaves a share of a group's cells.
func (t *turn) weaken(group int, left float64) {
	b := t.a.Bank
	fast, slow := b.Resistance(group)
	b.SetCapacity(group, left*b.CapacityAh(group))
	b.SetResistance(group, fast/left, slow/left)
}

// loseString takes one of several strings away; each time it is another one.
func (t *turn) loseString(strings int) {
	before := strings - t.stringsLost
	t.stringsLost++
	if before <= 1 {
		t.e.OpenMain()
		return
	}
	left := float64(before-1) / float64(before)
	for k := range t.a.Bank.Groups() {
		t.weaken(k, left)
	}
	t.share /= left
}

// fuses makes the faults of main and string fuses that open by themselves.
func (f *faulty) fuses() {
	for _, fuse := range circuit.Fuses(f.rig, "bank") {
		f.add(fuse.Name, "open", "open fuse", true, func(t *turn) { t.e.OpenMain() }, "the bank is off the bus, with what is fed from its terminals")
	}
	strings := max(1, f.rig.Bank.Strings)
	if strings < 2 {
		return
	}
	for _, fuse := range circuit.Fuses(f.rig, "string") {
		f.add(fuse.Name, "open", "open fuse", false, func(t *turn) { t.loseString(strings) },
			"one of %d strings is off: the others carry its share", strings)
	}
}

// surroundings are extremes of the air around the bank.
func (f *faulty) surroundings() {
	warmer := func(k float64) func(*turn) { return func(t *turn) { t.warmerK += k } }
	f.add("surroundings", "far colder", "cold", false, warmer(-colderK), "the air around the bank's box is %g K colder than the scene has it", colderK)
	f.add("surroundings", "far hotter", "heat", false, warmer(hotterK), "the air around the bank's box is %g K hotter than the scene has it", hotterK)
	if c := f.rig.Bank.Cooling; c == "fan" || c == "liquid" {
		f.add("cooling", "stands still", "cooling lost", false, warmer(coolingK),
			"the scenes take no credit for the %s that cools the bank; without it its box is taken as %g K hotter than the air", c, coolingK)
	}
}

package benchlog

// slots of the values of one row, before sign and time are worked out.
const (
	slotTime = iota
	slotVolts
	slotAmps
	slotOut // a column of discharge current alone
	slotAh
	slotWh
	slotSoC
	slotState // 1 charging, -1 discharging, 0 at rest
	slotCycle
	slotPower
	slotGroups // and then the temperatures
)

// A record is a row on its way to its sign: time, line, cycle, then the slots.
const (
	recordTime = iota
	recordLine
	recordCycle
	recordHead
)

// target is what becomes of a field.
type target struct {
	field, slot   int
	scale, offset float64
	unit          unit // of the column, for values that bring their own
	name          string
	adds          bool // to what another column put into the slot
	oneWay        bool // counts one direction: its own sign means nothing
	state         bool // a word for what is done
}

// plan is how a line becomes a row.
type plan struct {
	shape   shape
	targets []target
	need    int // fields a row must have
	groups  int
	temps   int
	time    timeForm
	states  map[string]float64
	pair    bool // charge and discharge current in columns of their own
	sums    bool // the voltage of the whole is the sum of the groups
	powers  bool // current is power over voltage
	counts  bool // the charge counter has a direction of its own
}

func newPlan(sh shape, list []column, time timeForm) *plan {
	pl := &plan{shape: sh, time: time, states: map[string]float64{}, groups: len(with(list, GroupV))}
	for i := range list {
		pl.add(&list[i])
	}
	if time.date >= 0 {
		pl.need = max(pl.need, time.date+1, time.clock+1)
	} else if time.perRow == 0 {
		pl.need = max(pl.need, time.field+1)
	}
	pl.need = min(pl.need, sh.usual)
	pl.sums = len(with(list, Voltage)) == 0 && pl.groups > 0
	pl.powers = len(with(list, Current)) == 0 && len(with(list, Power)) > 0
	return pl
}

// slotOf is the slot of roles that have one to themselves.
var slotOf = map[Role]int{Voltage: slotVolts, Current: slotAmps, Charge: slotAh, ChargeIn: slotAh, ChargeOut: slotAh,
	Energy: slotWh, Power: slotPower, SoC: slotSoC, Cycle: slotCycle, Step: slotState}

func (pl *plan) add(c *column) {
	slot, ok := slotOf[c.role]
	t := target{field: c.index, slot: slot, scale: c.unit.scale, offset: c.unit.offset, unit: c.unit, name: c.m.name}
	if t.scale == 0 {
		t.scale = 1
	}
	switch c.role {
	case GroupV:
		t.slot = slotGroups + c.group - 1
	case Temperature:
		t.slot = slotGroups + pl.groups + pl.temps
		pl.temps++
	case Current:
		if c.sign < 0 {
			t.slot, pl.pair = slotOut, true
		}
	case ChargeIn:
		t.adds, t.oneWay, pl.counts = true, true, true
	case ChargeOut:
		t.adds, t.oneWay, pl.counts = true, true, true
		t.scale = -t.scale
	case Energy:
		t.adds = true
		t.scale *= c.sign
	case Step:
		if c.s.words == 0 {
			return // numbers of steps say nothing of their own
		}
		t.state = true
	default:
		if !ok {
			return
		}
	}
	pl.targets = append(pl.targets, t)
	pl.need = max(pl.need, t.field+1)
}

func (pl *plan) width() int { return recordHead + slotGroups + pl.groups + pl.temps }

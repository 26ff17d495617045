package circuit

import "ampstead/rig"

// The names of the two nodes that are no devices.
const (
	AtBank = "bank"
	AtBus  = "bus"
)

// Way finds the cables that lead from one node to another, nearest to from
// first, by the fewest runs; nil when there is none. Nodes are bank, bus and
// devices by name.
func Way(cables []rig.Cable, from, to string) []*rig.Cable {
	came := map[string]*rig.Cable{from: nil}
	queue := []string{from}
	for len(queue) > 0 && came[to] == nil {
		at := queue[0]
		queue = queue[1:]
		for k := range cables {
			c := &cables[k]
			next := OtherEnd(c, at)
			if _, seen := came[next]; next == "" || seen {
				continue
			}
			came[next] = c
			queue = append(queue, next)
		}
	}
	var back []*rig.Cable
	for at := to; came[at] != nil; at = OtherEnd(came[at], at) {
		back = append(back, came[at])
	}
	return reversed(back)
}

func reversed(list []*rig.Cable) []*rig.Cable {
	var way []*rig.Cable
	for k := len(list) - 1; k >= 0; k-- {
		way = append(way, list[k])
	}
	return way
}

// OtherEnd is the node at the other end of a cable, "" when the cable does not
// touch at.
func OtherEnd(c *rig.Cable, at string) string {
	switch at {
	case c.From:
		return c.To
	case c.To:
		return c.From
	}
	return ""
}

package picture

import (
	"slices"

	"ampstead/wire"
)

// limb is a thing on the diagram, the run that feeds it and what lies beyond it.
type limb struct {
	node    wire.Node
	run     *wire.Circuit // nil where the diagram begins
	fuse    *wire.Fuse    // at the beginning of the run, of the file or proposed
	contact *wire.Contactor
	again   bool // stands elsewhere with what lies beyond it
	limbs   []*limb

	cableSays, fuseSays, switchSays, nodeSays []string // rules that are broken
}

// tree is the diagram from the bank outwards. What the bank does not reach has
// beginnings of its own.
type tree struct {
	strings *limb // the modules, when there are several strings of them
	root    *limb // the bank's terminals
	adrift  []*limb
	all     []*limb
	dashed  bool // something is proposed
	broken  bool // something breaks a rule
}

// grower makes a tree of the circuits.
type grower struct {
	res   *wire.Result
	nodes map[string]wire.Node
	seen  map[string]bool
	done  []bool // by circuit
	tree  tree
}

func grown(res *wire.Result) *tree {
	g := &grower{res: res, nodes: map[string]wire.Node{}, seen: map[string]bool{}, done: make([]bool, len(res.Circuits))}
	bank := ""
	for _, n := range res.Nodes {
		g.nodes[n.Name] = n
		if n.Kind == wire.KindBank && bank == "" {
			bank = n.Name
		}
	}
	if bank != "" {
		g.tree.strings = g.modules(bank)
		g.tree.root = g.grow(bank, nil)
		busFirst(g.tree.root)
	}
	for i := range res.Circuits {
		if !g.done[i] {
			g.tree.adrift = append(g.tree.adrift, g.grow(res.Circuits[i].From, nil))
		}
	}
	g.mark()
	return &g.tree
}

// busFirst puts the bus bars at the head of what hangs on the bank.
func busFirst(root *limb) {
	slices.SortStableFunc(root.limbs, func(a, b *limb) int { return bit(b.isBus()) - bit(a.isBus()) })
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (l *limb) isBus() bool { return l.node.Kind == wire.KindBus && !l.again }

// modules takes the run that joins the strings of modules.
func (g *grower) modules(bank string) *limb {
	for i := range g.res.Circuits {
		c := &g.res.Circuits[i]
		if g.nodes[c.From].Kind == wire.KindModules && c.To == bank && c.From != bank {
			g.done[i] = true
			return g.limb(c.From, c)
		}
	}
	return nil
}

// grow makes the limb of a node with everything beyond it.
func (g *grower) grow(name string, run *wire.Circuit) *limb {
	l := g.limb(name, run)
	if g.seen[name] {
		l.again = true
		return l
	}
	g.seen[name] = true
	for i := range g.res.Circuits {
		c := &g.res.Circuits[i]
		if end, ok := g.beyond(c, name); ok && !g.done[i] {
			g.done[i] = true
			l.limbs = append(l.limbs, g.grow(end, c))
		}
	}
	return l
}

// beyond is the far end of a run that begins at name. Panels hang on their charger.
func (g *grower) beyond(c *wire.Circuit, name string) (string, bool) {
	switch {
	case c.From == name:
		return c.To, true
	case c.To == name && g.nodes[c.From].Kind == wire.KindPanels:
		return c.From, true
	}
	return "", false
}

func (g *grower) limb(name string, run *wire.Circuit) *limb {
	n, ok := g.nodes[name]
	if !ok {
		n = wire.Node{Name: name, Kind: wire.KindOther}
	}
	l := &limb{node: n, run: run}
	g.tree.all = append(g.tree.all, l)
	if run == nil {
		return l
	}
	for i := range g.res.Fuses {
		if f := &g.res.Fuses[i]; f.Circuit == run.Name && f.Name == run.FuseName && !run.FuseShared {
			l.fuse = f
		}
	}
	for i := range g.res.Contactors {
		if k := &g.res.Contactors[i]; run.SwitchName != "" && k.Name == run.SwitchName {
			l.contact = k
		}
	}
	g.tree.dashed = g.tree.dashed || run.Proposed || run.FuseProposed && run.FuseA > 0
	return l
}

// fitsAcross reports whether the tree is no deeper than there are columns: bank,
// bus bars, devices, and one thing beyond each.
func (t *tree) fitsAcross() bool {
	for _, l := range t.root.limbs {
		devices := []*limb{l}
		if l.isBus() {
			devices = l.limbs
		}
		for _, d := range devices {
			if d.isBus() && d != l || d.depth() > 1 || slices.ContainsFunc(d.limbs, (*limb).isBus) {
				return false
			}
		}
	}
	return true
}

// depth is how many runs follow one another beyond a limb.
func (l *limb) depth() int {
	deepest := 0
	for _, k := range l.limbs {
		deepest = max(deepest, 1+k.depth())
	}
	return deepest
}

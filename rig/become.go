package rig

// Become returns a new file that reads as the rig to, with the comments, order
// and spelling of everything that stays. The error is Errors when to is no valid
// rig or a part of the file can only be changed by hand.
func (f *File) Become(to *Rig) (*File, error) {
	g, err := f.Make(Diff(f.Rig, to)...)
	if err != nil {
		return nil, err
	}
	if left := Diff(g.Rig, to); len(left) > 0 {
		return nil, Errors{f.byHand(left[0].Path)}
	}
	return g, nil
}

// Make makes the changes of a Diff one after the other; only the end must be
// valid. Other than SetAll, it also takes whole blocks and items out, where a
// change's value is empty. Errors: as SetAll.
func (f *File) Make(changes ...Change) (*File, error) {
	g := f
	for _, c := range changes {
		next, p := g.turn(c)
		if p != nil {
			return nil, Errors{p}
		}
		g = next
	}
	return g.whole(f)
}

// turn makes one change; the result need not be a whole rig.
func (f *File) turn(c Change) (*File, *Problem) {
	if c.Value != "" {
		return f.change(c.Path, c.Value)
	}
	g, p := f.aim(c.Path)
	if p != nil {
		return nil, p
	}
	switch {
	case len(g.rest) > 0:
		return f, nil
	case g.item || g.field.deep():
		return f.uproot(c.Path, g)
	}
	return f.remove(c.Path, g)
}

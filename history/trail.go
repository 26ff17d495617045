package history

import "slices"

// Trail is where undo and redo lead from the newest version on.
type Trail struct {
	Undo []int // numbers of the versions that repeated undo puts back, the next first
	Redo []int // and of those that repeated redo puts back
}

// TrailOf follows the versions, in rising number. An undo goes back by one version,
// a redo forward again until something new was written; a version that was put
// back out of turn counts as new.
func TrailOf(all []Version) Trail {
	var w walk
	kept := map[int]bool{}
	for _, v := range all {
		kept[v.Number] = true
	}
	for i, v := range all {
		w.take(v, i == 0, kept[v.Of])
	}
	slices.Reverse(w.back)
	slices.Reverse(w.forth)
	return Trail{w.back, w.forth}
}

// UndoTo is the version that undo puts back, false when there is none.
func UndoTo(all []Version) (int, bool) { return first(TrailOf(all).Undo) }

// RedoTo is the version that redo puts back, false when there is none.
func RedoTo(all []Version) (int, bool) { return first(TrailOf(all).Redo) }

func first(numbers []int) (int, bool) {
	if len(numbers) == 0 {
		return 0, false
	}
	return numbers[0], true
}

// walk holds numbers of versions; the last of a list is the nearest.
type walk struct {
	back  []int
	here  int
	forth []int
}

// take follows one version. There says that the one it puts back is still kept;
// where it is not, this one stands for it.
func (w *walk) take(v Version, begins, there bool) {
	switch {
	case begins:
		w.here = v.Number
	case v.Kind == Undo && there && move(&w.back, &w.forth, w.here, v.Of),
		v.Kind == Redo && there && move(&w.forth, &w.back, w.here, v.Of):
		w.here = v.Of
	case v.Kind == Undo && !there:
		w.forth, w.here = append(w.forth, w.here), v.Number
	case v.Kind == Redo && !there:
		w.back, w.here = append(w.back, w.here), v.Number
	default:
		w.back, w.forth, w.here = append(w.back, w.here), nil, v.Number
	}
}

// move takes everything from one list down to the number, and puts it with here
// onto the other; false when the number is not there.
func move(from, to *[]int, here, number int) bool {
	at := slices.Index(*from, number)
	if at < 0 {
		return false
	}
	*to = append(*to, here)
	for i := len(*from) - 1; i > at; i-- {
		*to = append(*to, (*from)[i])
	}
	*from = (*from)[:at]
	return true
}

package web

import (
	"ampstead/finding"
	"errors"
	"sort"
	"strings"

	"ampstead/rig"
)

// errChanged says that the file is no longer what the visitor was shown.
var errChanged = errors.New("the file was changed meanwhile")

// edit is one value a visitor wants in the file.
type edit struct {
	Path  string
	Value string  // empty removes it
	Was   *string // what the visitor was shown; nil when they do not say
}

// changed reports whether the visitor touched the value at all.
func (e edit) changed() bool { return e.Was == nil || *e.Was != e.Value }

// refusal says why nothing was saved: by path, what is wrong there.
type refusal struct {
	Wrong    map[string]string // messages beside their fields
	Conflict map[string]string // path → value in the file now
	Other    []string          // what has no field to stand beside
	Act      string            // why an item could not be added, copied or removed
	Stale    bool              // because the file is no longer the one that was seen
}

func (r *refusal) any() bool {
	return len(r.Wrong)+len(r.Conflict)+len(r.Other) > 0 || r.Act != ""
}

// message says what stands beside the field at path, and whether the value in
// the file changed meanwhile.
func (r *refusal) message(path string) (text string, conflict bool) {
	value, conflict := r.Conflict[path]
	switch {
	case conflict && value == "":
		return "Someone removed this value meanwhile. Save again to put yours in its place.", true
	case conflict:
		return "Someone changed this meanwhile to " + value + ". Save again to put yours in its place.", true
	}
	return r.Wrong[path], false
}

// unplaced are the messages of paths that have no field.
func (r *refusal) unplaced(fields map[string]bool) []string {
	var list []string
	for path, message := range r.Wrong {
		if !fields[path] {
			list = append(list, path+": "+message)
		}
	}
	for path := range r.Conflict {
		if !fields[path] {
			list = append(list, path+": is no longer in the file.")
		}
	}
	sort.Strings(list)
	return list
}

// outcome of a change: the file before and after it, and why it was refused.
type outcome struct {
	Before, After *reading
	Saved         int // values written
	Refused       refusal
	At            string            // path of the item that was changed, as it is called now
	Renames       map[string]string // paths of items that have another name now
}

// renamed is what a path of the file before is called now.
func (o *outcome) renamed(path string) string {
	for was, is := range o.Renames {
		if within(path, was) {
			return is + path[len(was):]
		}
	}
	return path
}

// renamesOf lists the items that changes of their names call otherwise.
func renamesOf(changes []rig.Change) map[string]string {
	names := map[string]string{}
	for _, c := range changes {
		item := outerPath(c.Path)
		if list, key := outerPath(item), lastStep(c.Path); list != "" && (key == "name" || key == "item") {
			names[item] = list + "." + strings.TrimSpace(c.Value)
		}
	}
	return names
}

// errand is what to do to an item besides, or instead of, writing values.
type errand struct {
	path   string // of the item, before any value is written
	seen   string // stamp of the file that the visitor was shown
	strict bool   // refused when the file is another one now
	does   func(path string) act
}

// show puts both readings into the visitor's units.
func (o *outcome) show(in func(*reading) *reading) { o.Before, o.After = in(o.Before), in(o.After) }

// change applies all edits and saves once, or does nothing at all. An error
// means the file could not be written; it is then as it was.
func (d *desk) change(edits []edit) (outcome, error) { return d.perform(edits, errand{}) }

// perform is change with something done to an item behind it, in the same save.
func (d *desk) perform(edits []edit, job errand) (outcome, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	before := d.readLocked()
	out := outcome{Before: before, After: before}
	if before.file == nil {
		out.Refused.Other = []string{"The file cannot be read at the moment. Mend it as text first."}
		return out, nil
	}
	next := d.prepare(&out, edits, job)
	if out.Refused.any() || next == nil {
		return out, nil
	}
	if err := next.Save(); errors.Is(err, rig.ErrChanged) {
		out.Refused.Other = []string{"The file was changed by another program just now. Nothing was saved; look at it and try again."}
		out.After = d.readLocked()
		return out, nil
	} else if err != nil {
		return out, err
	}
	d.last = readingOf(next)
	d.last.since = sinceOf(before, d.last)
	out.After = d.last
	return out, nil
}

// prepare makes the file that is to be saved, nil when there is nothing to save; what
// stands against it is in the outcome.
func (d *desk) prepare(out *outcome, edits []edit, job errand) *rig.File {
	before := out.Before.file
	wanted, conflict := conflicts(before, edits)
	if out.Refused.Conflict = conflict; len(conflict) > 0 {
		return nil
	}
	if job.strict && job.seen != out.Before.stamp {
		out.Refused.Stale = true
		out.Refused.Act = "The file was changed meanwhile by someone else. This is how it is now; press again if you still want to."
		return nil
	}
	if len(wanted) == 0 && job.does == nil {
		return nil
	}
	next, err := before.Edit(wanted...)
	if err != nil {
		out.Refused = refusalOf(before, wanted, err)
		return nil
	}
	out.Saved, out.Renames = len(wanted), renamesOf(wanted)
	if job.does != nil {
		if next, out.At, err = job.does(out.renamed(job.path))(next); err != nil {
			out.Refused.Act = plainAct(before.Path, err)
			return nil
		}
	}
	if at := offPage(before, next); at != "" {
		if out.Refused.Wrong = map[string]string{at: offPageReason}; job.does != nil {
			out.Refused.Act = offPageReason
		}
		return nil
	}
	return next
}

// plainAct says in sentences why an item could not be changed.
func plainAct(file string, err error) string {
	var said []string
	for _, p := range problemsOf(file, err) {
		said = append(said, sentences(p.Message, want(p)))
	}
	return strings.Join(said[:min(len(said), 3)], " ")
}

// conflicts leaves out what was not touched and finds what someone else
// changed meanwhile to something other than what is wanted.
func conflicts(file *rig.File, edits []edit) ([]rig.Change, map[string]string) {
	now := map[string]string{}
	for _, f := range rig.Fields(file) {
		now[f.Path] = f.Written
	}
	var wanted []rig.Change
	conflict := map[string]string{}
	for _, e := range edits {
		if !e.changed() || e.Value == now[e.Path] {
			continue
		}
		if e.Was != nil && *e.Was != now[e.Path] {
			conflict[e.Path] = now[e.Path]
		}
		wanted = append(wanted, rig.Change{Path: e.Path, Value: e.Value})
	}
	return wanted, conflict
}

// refusalOf puts each problem beside the field it belongs to; one that an edit
// causes elsewhere stands beside the first edit and names its place.
func refusalOf(file *rig.File, edits []rig.Change, err error) refusal {
	out := refusal{Wrong: map[string]string{}}
	edited := map[string]bool{}
	for _, e := range edits {
		edited[e.Path] = true
	}
	for _, p := range problemsOf(file.Path, err) {
		at, message := p.Path, sentences(p.Message, want(p))
		if !edited[at] {
			at, message = edits[0].Path, sentences(p.Path+": "+p.Message, want(p))
		}
		out.Wrong[at] = strings.TrimSpace(out.Wrong[at] + " " + message)
	}
	return out
}

// write replaces the whole file. Nothing is written when the text is no rig
// (the problems are returned) or the file is not the one seen (errChanged).
func (d *desk) write(text []byte, seen string) (rig.Errors, *reading, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.readLocked()
	if now.missing != nil {
		return nil, now, now.missing
	}
	if now.stamp != seen {
		return nil, now, errChanged
	}
	if string(text) == string(now.text) {
		return nil, now, nil
	}
	next, err := rig.Parse(d.path, text)
	if err != nil {
		return problemsOf(d.path, err), now, nil
	}
	if path := offPage(now.file, next); path != "" && !(now.file == nil && stoodThere(now.text, next)) {
		return rig.Errors{next.Problem(path, offPageReason, "", "")}, now, nil
	}
	if err := next.Replace(now.text); errors.Is(err, rig.ErrChanged) {
		return nil, d.readLocked(), errChanged
	} else if err != nil {
		return nil, now, err
	}
	return nil, d.readLocked(), nil
}

// sentences joins texts into sentences, each with its capital and its stop.
func sentences(texts ...string) string {
	var list []string
	for _, t := range texts {
		if t = finding.Sentence(t); t != "" {
			list = append(list, t)
		}
	}
	return strings.Join(list, " ")
}

package web

import (
	"net/http"
	"strconv"
	"strings"

	"ampstead/prove"
	"ampstead/rig"
)

// writesOf lists what a test changes in the rig file, where every string of the
// rig is like the one tested.
func writesOf(file *rig.File, res *prove.Result, date string) []writeRow {
	now := map[string]string{}
	for _, f := range rig.Fields(file) {
		now[f.Path] = f.Written
	}
	var list []writeRow
	for _, c := range prove.Changes(res, file.Rig.Bank.Series, max(1, file.Rig.Bank.Strings), date) {
		if now[c.Path] != c.Value {
			list = append(list, writeRow{c.Path, now[c.Path], c.Value})
		}
	}
	return list
}

// writeProof writes the values that were shown into the rig file.
func (s *site) writeProof(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	edits, ok := readEdits(r.PostForm)
	if !ok {
		http.Error(w, "Each value needs its path.", http.StatusBadRequest)
		return
	}
	for _, e := range edits {
		if !measuredPath(e.Path) {
			http.Error(w, "Only what was measured can be written here.", http.StatusBadRequest)
			return
		}
	}
	out, err := s.desk.change(edits)
	out.show(func(now *reading) *reading { return now.in(s.units(r, now)) })
	switch {
	case err != nil:
		s.unsaved(w, r, rigUnsaved, err)
	case out.Refused.any():
		s.showProve(w, r, http.StatusConflict, "Nothing was written. "+refusedWords(out.Refused))
	default:
		way := readWay(r.PostForm)
		way.Set("saved", strconv.Itoa(out.Saved))
		for _, key := range []string{"test", "log"} {
			if v := r.PostForm.Get(key); v != "" {
				way.Set(key, v)
			}
		}
		http.Redirect(w, r, s.at("/prove?"+way.Encode()), http.StatusSeeOther)
	}
}

// measuredPath reports whether a path belongs to what a test measures.
func measuredPath(path string) bool { return strings.HasPrefix(path, "bank.measured.") }

// refusedWords says why values were not written.
func refusedWords(why refusal) string {
	list := why.unplaced(nil)
	return strings.Join(append(list, why.Other...), " ")
}

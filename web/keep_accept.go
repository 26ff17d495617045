package web

import (
	"net/http"

	"ampstead/keep"
)

// acceptLog writes what the log tells into the rig file: only what it still tells.
func (s *site) acceptLog(w http.ResponseWriter, r *http.Request) {
	now := s.posted(w, r)
	if now == nil {
		return
	}
	edits, ok := readEdits(r.PostForm)
	t, err := s.tell(r, now)
	if !ok || err != nil {
		s.showKeep(w, r, http.StatusBadRequest, entryForm{}, "Nothing was written.")
		return
	}
	for _, e := range edits {
		if !tells(t.res, e) {
			s.showKeep(w, r, http.StatusConflict, entryForm{}, "Nothing was written: the log tells something else by now. Look at the values again.")
			return
		}
	}
	out, err := s.desk.change(edits)
	switch {
	case err != nil:
		s.showKeep(w, r, diskStatus(err), entryForm{}, "The rig file could not be saved and is as it was: "+plainReason(err)+".")
	case out.Refused.any():
		s.showKeep(w, r, http.StatusConflict, entryForm{}, "Nothing was written. "+refusedWords(out.Refused))
	default:
		http.Redirect(w, r, s.at("/keep?done=written"), http.StatusSeeOther)
	}
}

func tells(res *keep.Result, e edit) bool {
	for _, c := range res.Back {
		if c.Path == e.Path && c.Value == e.Value {
			return true
		}
	}
	return false
}

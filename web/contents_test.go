package web

import "testing"

// The pages turn as the job goes, from the overview to the book, and no further.
func TestPagesTurnAsTheJobGoes(t *testing.T) {
	f := frame{Nav: []link{{"rigs", "/rigs", "Rigs"}, {"overview", "/", "Overview"}, {"rig", "/rig", "Rig"}}}
	for _, stage := range stages {
		f.Nav = append(f.Nav, link{stage.key, "/" + stage.key, stage.title})
	}
	f.Nav = append(f.Nav, link{"figures", "/figures", "Handbook"})
	text := func(l *link) string {
		if l == nil {
			return ""
		}
		return l.Text
	}
	for here, want := range map[string][2]string{
		"overview": {"", "Rig"}, "choose": {"Rig", "Prove"}, "book": {"Keep", ""}, "figures": {"", ""}, "rigs": {"", ""}, "": {"", ""}, "keep": {"Travel", "Book"},
	} {
		f.Here = here
		if got := [2]string{text(f.Before()), text(f.After())}; got != want {
			t.Errorf("from %q one turns to %q, want %q", here, got, want)
		}
	}
	for _, c := range f.Contents() {
		if c.Question == "" {
			t.Errorf("%s has no question in the contents", c.Key)
		}
	}
	if stageNumber("choose") != 1 || stageNumber("keep") != 7 || stageNumber("book") != 0 {
		t.Error("the stages are numbered otherwise")
	}
}

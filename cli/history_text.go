package cli

import (
	"cmp"
	"fmt"
	"io"
	"strconv"

	"ampstead/history"
	"ampstead/rig"
)

// historyText prints the versions of a rig file for a terminal.
type historyText struct {
	w     io.Writer
	path  string
	story *rig.Story
}

// mostChanges are told of one version.
const mostChanges = 6

func (t *historyText) print(done *stepped) {
	if done != nil {
		fmt.Fprintf(t.w, "%s\n", doneWords(done))
		for _, c := range done.Changes {
			fmt.Fprintf(t.w, "  %s\n", wrap(changeWords(c), 4))
		}
		fmt.Fprintln(t.w)
	}
	fmt.Fprintf(t.w, "VERSIONS of %s, kept in %s\n", t.path, history.Folder(t.path))
	var tab table
	for _, e := range t.story.Events {
		t.event(&tab, e)
	}
	tab.print(t.w)
	if n := t.story.Older; n > 0 {
		fmt.Fprintf(t.w, "  and %d older: --last 0 lists all\n", n)
	}
	for _, s := range t.story.Strange {
		fmt.Fprintf(t.w, "  left alone: %s %s\n", s.Name, s.Why)
	}
	fmt.Fprintf(t.w, "\n%s\n", wrap(t.ways(), 0))
}

func (t *historyText) event(tab *table, e rig.Event) {
	number, when := "now", e.Time.Local().Format("2006-01-02 15:04")
	if e.Number > 0 {
		number = strconv.Itoa(e.Number)
	}
	lines := eventWords(e)
	tab.row("  "+number, when, kindWords(e), lines[0])
	for _, line := range lines[1:] {
		tab.row("", "", "", line)
	}
}

// ways says what can be done next.
func (t *historyText) ways() string {
	text := "Nothing can be undone."
	if t.story.Undo > 0 {
		text = fmt.Sprintf("--undo puts version %d back.", t.story.Undo)
	}
	if t.story.Redo > 0 {
		text += fmt.Sprintf(" --redo puts version %d back.", t.story.Redo)
	}
	return text + " --back N puts any version back, which can itself be undone; ampstead compare --was N shows what changed since and what it did."
}

// eventWords says what a version changed, one line each.
func eventWords(e rig.Event) []string {
	switch {
	case e.Unread != "":
		return []string{e.Unread}
	case e.First:
		return []string{"the first that was kept"}
	case e.TextOnly:
		return []string{"comments, order or spelling alone"}
	case len(e.Changes) == 0:
		return []string{"nothing"}
	}
	var lines []string
	for i, c := range e.Changes {
		if i == mostChanges {
			lines = append(lines, fmt.Sprintf("and %d more", len(e.Changes)-i))
			break
		}
		lines = append(lines, changeWords(c))
	}
	return lines
}

// changeWords says what changed in one value, device, stay or block.
func changeWords(c rig.Changed) string {
	switch {
	case c.Whole && c.Was == "":
		return fmt.Sprintf("%s: new (%s)", c.Label, clipped(c.Is))
	case c.Whole && c.Is == "":
		return fmt.Sprintf("%s: removed (%s)", c.Label, clipped(c.Was))
	}
	return fmt.Sprintf("%s: %s → %s", c.Label, cmp.Or(clipped(c.Was), "not given"), cmp.Or(clipped(c.Is), "not given"))
}

// clipped cuts a long text.
func clipped(text string) string {
	const most = 90
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return text
}

func kindWords(e rig.Event) string {
	switch e.Kind {
	case history.Begin:
		return "began"
	case history.Edit:
		return "edited"
	case history.Undo:
		return fmt.Sprintf("undone, to %d", e.Of)
	case history.Redo:
		return fmt.Sprintf("done again, to %d", e.Of)
	case history.Back:
		return fmt.Sprintf("put back, %d", e.Of)
	}
	return "other program"
}

func doneWords(s *stepped) string {
	switch s.Kind {
	case history.Undo:
		return fmt.Sprintf("Undone: the file is what version %d was.", s.Number)
	case history.Redo:
		return fmt.Sprintf("Done again: the file is what version %d was.", s.Number)
	}
	return fmt.Sprintf("Version %d is put back.", s.Number)
}

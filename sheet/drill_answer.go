package sheet

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"ampstead/drill"
)

// DrillAnswer says in plain sentences what the drill found, the verdict on single
// faults first. It says what was tried, never that nothing else can happen.
func DrillAnswer(res *drill.Result) []string {
	list := []string{}
	if s := plainSentence(res); s != "" {
		list = append(list, s)
	}
	list = append(list, singlesSentence(res))
	for _, s := range []string{nearSentence(res), pairsSentence(res), helpOfDrill(res), silentSentence(res)} {
		if s != "" {
			list = append(list, s)
		}
	}
	return append(list, triedSentence(res))
}

func singlesSentence(res *drill.Result) string {
	if len(res.Single) == 0 {
		return "No fault was played: the file names nothing that could fail."
	}
	tried := "in the " + counted(len(res.Scenes), "scene") + " tried"
	if len(harmedPlain(res)) > 0 {
		tried = "in a scene that by itself does not"
	}
	switch harmed := harmedBy(res); len(harmed) {
	case 0:
		return NoSingles(res)
	case 1:
		return "One single fault reaches harm " + tried + ": " + harmed[0] + "."
	default:
		return strconv.Itoa(len(harmed)) + " single faults reach harm " + tried + ": " + firstOf(harmed, 3) + "."
	}
}

// NoSingles says that no single fault reaches harm, where none does.
func NoSingles(res *drill.Result) string {
	if len(harmedPlain(res)) > 0 {
		return "No single fault brings harm to a scene that by itself is free of it."
	}
	return "No single fault drives a cell out of its window or charges it in frost in the " + counted(len(res.Scenes), "scene") + " tried."
}

// plainSentence says which scenes reach harm with nothing wrong.
func plainSentence(res *drill.Result) string {
	harmed := harmedPlain(res)
	if len(harmed) == 0 {
		return ""
	}
	return "With nothing wrong at all, " + strconv.Itoa(len(harmed)) + " of the " + counted(len(res.Scenes), "scene") + " tried " + verb(len(harmed), "reaches", "reach") + " harm: " +
		strings.Join(harmed, "; ") + ". That comes before any fault."
}

func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

func harmedPlain(res *drill.Result) []string {
	var list []string
	for _, o := range res.Plain().Cells {
		if o != nil && o.Outcome == drill.Harm {
			list = append(list, o.Scene+" ("+drill.HarmWords(o.Harm)+")")
		}
	}
	return list
}

// harmedBy names the single faults that reach harm where nothing wrong does not,
// each with the scene in which it went worst.
func harmedBy(res *drill.Result) []string {
	plain := res.Plain()
	var list []string
	for _, r := range res.Rows() {
		if worst := r.Telling(&plain); worst != nil && worst.Outcome == drill.Harm {
			list = append(list, r.Fault.Name+" ("+worst.Scene+", "+drill.HarmWords(worst.Harm)+")")
		}
	}
	return list
}

// firstOf joins the first names of a list and counts the others.
func firstOf(list []string, n int) string {
	if len(list) <= n {
		return strings.Join(list, "; ")
	}
	return strings.Join(list[:n], "; ") + "; and " + strconv.Itoa(len(list)-n) + " more"
}

func nearSentence(res *drill.Result) string {
	n := 0
	var nearest *drill.Outcome
	plain := res.Plain()
	for _, r := range res.Rows() {
		worst := r.Telling(&plain)
		if worst == nil || worst.Outcome != drill.Near {
			continue
		}
		n++
		if nearest == nil || worst.MarginMV < nearest.MarginMV {
			nearest = worst
		}
	}
	if n == 0 {
		return ""
	}
	said := "One comes near harm: "
	if n > 1 {
		said = strconv.Itoa(n) + " come near harm, nearest "
	}
	return said + nearest.Fault + " (" + nearest.Scene + ", " + nearest.Nearness() + ")."
}

func pairsSentence(res *drill.Result) string {
	p := res.Pairs
	switch {
	case p.Runs == 0:
		return "Pairs of faults were not played."
	case p.Harm == 0:
		return "No two faults at once reach harm that one alone does not, in " + strconv.Itoa(p.Runs) + " runs."
	}
	return "Two faults at once reach harm in " + strconv.Itoa(p.Harm) + " of " + strconv.Itoa(p.Runs) + " runs, for " + counted(len(p.Groups), "common cause") + "."
}

func helpOfDrill(res *drill.Result) string {
	if len(res.Additions) == 0 || res.Additions[0].Covers <= 0 {
		return ""
	}
	a := res.Additions[0]
	return "What would cover most of what is open: " + a.Name + ", " + strconv.Itoa(a.Covers) + " of " + strconv.Itoa(a.Of) + " runs."
}

func silentSentence(res *drill.Result) string {
	list := Silent(res)
	switch n := len(list); {
	case n == 0:
		return ""
	case n == 1:
		return "One fault is silent, nothing tells anybody until a second one comes: " + list[0] + "."
	case n <= 4:
		return strconv.Itoa(n) + " faults are silent, nothing tells anybody until a second one comes: " + strings.Join(list, "; ") + "."
	default:
		return strconv.Itoa(n) + " of " + strconv.Itoa(len(res.Faults)) + " faults are silent: nothing tells anybody until a second one comes."
	}
}

func triedSentence(res *drill.Result) string {
	return "Tried: " + counted(len(res.Faults), "fault") + " in " + counted(len(res.Scenes), "scene") + ". What is not in this list was not tried, and how often any of it happens is not said."
}

// DrillCautions are what has to stand with every drill.
func DrillCautions() []string {
	return []string{
		"A drill is arithmetic with models of the bank and the devices. It says what they would do; it does not say what a worn contact or a damaged cell does.",
		"Never make a fault for real to see what happens. Rehearse only what the rehearsal sheet names: it moves a threshold or a sensor, never the bank, and everything is set back and read again afterwards.",
		"Local codes come first. Rehearse with the person licensed for this work, with somebody at the disconnect and everybody else outside.",
	}
}

// capital begins a text with a capital letter.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

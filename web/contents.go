package web

// chapter is one line of the table of contents.
type chapter struct {
	link
	Number   int // of the stage; 0 for what is beside the job
	Question string
}

// questions are what each page answers.
var questions = map[string]string{
	"overview": "Where it stands, and what to do next",
	"rig":      "Every value, as it is today",
	"choose":   "Which battery should I buy?",
	"prove":    "Is this used module healthy?",
	"fit":      "What do I set on each device?",
	"wire":     "Which cable, fuse, relay, resistor?",
	"drill":    "What happens when something fails?",
	"travel":   "Does it carry me through the year?",
	"keep":     "How is it doing, and what do I do now?",
	"book":     "All of it on paper",
	"figures":  "Every formula, its source and its checks",
	"rigs":     "All rigs of this workshop",
}

// Contents are the pages as a book lists its chapters.
func (f frame) Contents() []chapter {
	var list []chapter
	for _, l := range f.Nav {
		list = append(list, chapter{l, stageNumber(l.Key), questions[l.Key]})
	}
	return list
}

// stageNumber is the place of a stage in the job, from 1; the book is none.
func stageNumber(key string) int {
	for i, stage := range stages {
		if stage.key == key && key != "book" {
			return i + 1
		}
	}
	return 0
}

// HereText is the name of this page in the list of pages; empty for one beside it.
func (f frame) HereText() string {
	for _, l := range f.Nav {
		if l.Key == f.Here {
			return l.Text
		}
	}
	return ""
}

// Before and After are the pages that a reader turns to from a stage, as the job goes;
// nil where there is none.
func (f frame) Before() *link { return f.turn(-1) }
func (f frame) After() *link  { return f.turn(+1) }

func (f frame) turn(by int) *link {
	for i, l := range f.Nav {
		if to := i + by; l.Key == f.Here && to >= 0 && to < len(f.Nav) && inJob(l.Key) && inJob(f.Nav[to].Key) {
			return &f.Nav[to]
		}
	}
	return nil
}

// inJob says whether a page is one that the job passes through.
func inJob(key string) bool {
	return key == "overview" || key == "rig" || key == "book" || stageNumber(key) > 0
}

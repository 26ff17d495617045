package web

import (
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"ampstead/picture"
	"ampstead/start"
)

// The guided start carries the answers in its address, so that the button back
// works and nothing is stored before the end. Beside the answers, by the keys of
// their questions, an address may hold:
const (
	startAt      = "at"      // the question to show, or startAll
	startAsk     = "ask"     // the question that is being answered
	startAnswer  = "answer"  // the choices that were picked
	startTyped   = "typed"   // what was typed
	startPicture = "picture" // only the picture is wanted
	startWrite   = "write"   // the button that ends it
	startAll     = "all"
)

// startSketchWide is what the picture is drawn for beside the questions, CSS px.
const startSketchWide = 560

type startPage struct {
	Frame   frame
	Alone   bool // one rig is served alone: there is nowhere to put a new one
	Q       *startQuestion
	Kept    []pair // the other answers, for the forms
	Sketch  startSketch
	All     string // address of the list of answers
	Lines   []startLine
	Missing int // questions that have not been answered
	Tally   tally
	Next    []start.Step
	Why     string // the rig could not be written
}

type pair struct{ Key, Value string }

type startSketch struct{ Desk, Phone template.HTML }

// startQuestion is a question as it is shown.
type startQuestion struct {
	*start.Question
	Number, Of int
	Choices    []startChoice
	Typed      string // what stands in the field
	Wrong      string
	Perhaps    []start.Choice
	Back       string // address of the question before
	First      bool   // of a start that has no answers yet
	NotKnown   bool   // it is answered with "I do not know"
	Returning  bool   // it was answered before
}

type startChoice struct {
	start.Choice
	Picked bool
}

type startLine struct {
	start.Line
	To string
}

// start shows a question, takes an answer or shows all of them.
func (h *hall) start(w http.ResponseWriter, r *http.Request) {
	if h.workshop == nil {
		h.render(w, http.StatusOK, "start", startPage{Frame: h.frame(r, "start", "A new rig"), Alone: true})
		return
	}
	query := r.URL.Query()
	answers := answersOf(query)
	ask := query.Get(startAsk)
	if query.Has(startPicture) {
		h.startPicture(w, answers, query)
		return
	}
	q, _, ok := start.Find(start.Questions(answers), ask)
	if !ok {
		h.showStart(w, r, answers, query.Get(startAt))
		return
	}
	text := given(query, q.Many)
	answer, err := start.Check(answers, ask, text)
	if err != nil {
		h.refuseStart(w, r, answers, ask, text, err)
		return
	}
	answers[ask] = answer
	http.Redirect(w, r, startAddress(start.Keep(answers), ""), http.StatusSeeOther)
}

// answersOf reads the answers an address or a form carries; what is not valid is
// left out.
func answersOf(form url.Values) start.Answers {
	a := start.Answers{}
	for _, key := range start.Keys() {
		if v := form.Get(key); v != "" {
			a[key] = v
		}
	}
	return start.Keep(a)
}

// given is the answer of a form: what was picked, else what was typed, or both
// where there may be several.
func given(form url.Values, many bool) string {
	parts := slices.Clone(form[startAnswer])
	switch {
	case slices.Contains(parts, start.Unknown):
		return start.Unknown
	case len(parts) > 0 && !many:
		return parts[0]
	}
	if typed := strings.TrimSpace(form.Get(startTyped)); typed != "" {
		parts = append(parts, typed)
	}
	return strings.Join(parts, ", ")
}

func startAddress(a start.Answers, at string) string {
	query := url.Values{}
	for key, answer := range a {
		query.Set(key, answer)
	}
	if at != "" {
		query.Set(startAt, at)
	}
	if len(query) == 0 {
		return "/start"
	}
	return "/start?" + query.Encode()
}

// showStart shows a question: the one asked for, else the first without an
// answer, else all answers.
func (h *hall) showStart(w http.ResponseWriter, r *http.Request, answers start.Answers, at string) {
	list := start.Questions(answers)
	if _, _, ok := start.Find(list, at); !ok && at != startAll {
		at = startAll
		if i := slices.IndexFunc(list, func(q start.Question) bool { return answers[q.Key] == "" }); i >= 0 {
			at = list[i].Key
		}
	}
	if at == startAll {
		h.showAnswers(w, r, http.StatusOK, answers, "")
		return
	}
	h.render(w, http.StatusOK, "start", h.question(r, list, answers, at))
}

func (h *hall) question(r *http.Request, list []start.Question, answers start.Answers, at string) startPage {
	q, number, _ := start.Find(list, at)
	shown := &startQuestion{Question: q, Number: number + 1, Of: len(list), First: len(answers) == 0,
		NotKnown: answers[at] == start.Unknown, Returning: answers[at] != ""}
	shown.fill(answers[at])
	if number > 0 {
		shown.Back = startAddress(answers, list[number-1].Key)
	}
	p := startPage{Frame: h.frame(r, "start", q.Ask), Q: shown, All: startAddress(answers, startAll),
		Kept: others(answers, at), Sketch: sketchOf(answers, at)}
	p.Frame.Back = startAddress(answers, at)
	p.Frame.Scripts = []string{"start.js"}
	return p
}

// TypedFirst reports whether the field stands before the choices: where there are
// none, or so many that it would be out of sight.
func (q *startQuestion) TypedFirst() bool {
	return !q.Many && q.Question.Typed != "" && (len(q.Choices) == 0 || len(q.Choices) > 6)
}

// fill puts the answer there is, or the one that is offered, into the form.
func (q *startQuestion) fill(answer string) {
	picked := answer
	if answer == "" && (q.Many || len(q.Question.Choices) == 0) && q.Sensible != start.Unknown {
		picked = q.Sensible
	}
	parts := []string{picked}
	if q.Many {
		parts = strings.Split(picked, ", ")
	}
	var typed []string
	for _, part := range parts {
		if _, ok := q.Choice(part); !ok && part != start.Unknown {
			typed = append(typed, part)
		}
	}
	q.Typed = strings.Join(typed, ", ")
	for _, c := range q.Question.Choices {
		q.Choices = append(q.Choices, startChoice{c, slices.Contains(parts, c.Value)})
	}
}

// others are the answers but one, in the order of the questions.
func others(a start.Answers, but string) []pair {
	var list []pair
	for _, key := range start.Keys() {
		if key != but && a[key] != "" {
			list = append(list, pair{key, a[key]})
		}
	}
	return list
}

func sketchOf(a start.Answers, asking string) startSketch {
	s := start.Draw(a, asking)
	draw := func(width int, key string) template.HTML {
		return template.HTML(picture.Start(&s, picture.Options{Width: width, Key: key})) // it escapes what was answered
	}
	return startSketch{Desk: draw(startSketchWide, "desk"), Phone: draw(picture.Phone-32, "phone")}
}

// refuseStart shows the question again with what is wrong with the answer.
func (h *hall) refuseStart(w http.ResponseWriter, r *http.Request, answers start.Answers, ask, text string, err error) {
	p := h.question(r, start.Questions(answers), answers, ask)
	p.Q.Wrong = err.Error()
	if bad, ok := err.(*start.Problem); ok {
		p.Q.Wrong, p.Q.Perhaps = plainProblem(bad), bad.Perhaps
	}
	p.Q.Choices = nil
	p.Q.fill(text)
	h.render(w, http.StatusUnprocessableEntity, "start", p)
}

func plainProblem(p *start.Problem) string {
	text := p.Message
	if p.Expected != "" {
		text += "; expected " + p.Expected
	}
	if len(p.Perhaps) == 0 && p.Example != "" {
		text += "; example: " + p.Example
	}
	return text + "."
}

// startPicture answers with the picture as it would be with an answer that has
// not been given yet.
func (h *hall) startPicture(w http.ResponseWriter, answers start.Answers, query url.Values) {
	ask := query.Get(startAsk)
	if q, _, ok := start.Find(start.Questions(answers), ask); ok {
		if answer, err := start.Check(answers, ask, given(query, q.Many)); err == nil {
			answers[ask] = answer
			answers = start.Keep(answers)
		}
	}
	out, err := h.front.partOf("start", "start-sketch", sketchOf(answers, ask))
	if err != nil {
		http.Error(w, "The picture could not be drawn.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write([]byte(out))
}

// showAnswers shows every answer, what follows from them and the way to end.
func (h *hall) showAnswers(w http.ResponseWriter, r *http.Request, status int, answers start.Answers, why string) {
	p := startPage{Frame: h.frame(r, "start", "All answers"), Kept: others(answers, ""), Sketch: sketchOf(answers, ""), Why: why}
	p.Frame.Back = startAddress(answers, startAll)
	for _, line := range start.Review(answers) {
		if line.Answer == "" {
			p.Missing++
		}
		p.Lines = append(p.Lines, startLine{line, startAddress(answers, line.Key)})
	}
	out, err := start.Finish(answers, "rig.yaml", h.config.Now().Year())
	if err != nil {
		p.Why = err.Error() + "."
	} else {
		p.Tally, p.Next = tallyOf(out.Findings), out.Next
	}
	h.render(w, status, "start", p)
}

// finish writes the new rig into a folder of its own and leads to its pages.
func (h *hall) finish(w http.ResponseWriter, r *http.Request) {
	if !readForm(w, r) {
		return
	}
	answers := answersOf(r.PostForm)
	switch {
	case h.workshop == nil:
		h.front.missing(w, r)
		return
	case !r.PostForm.Has(startWrite):
		h.showAnswers(w, r, http.StatusUnprocessableEntity, answers, "Nothing was written: press the button when the answers stand as you want them.")
		return
	}
	out, err := start.Finish(answers, "rig.yaml", h.config.Now().Year())
	if err != nil {
		h.showAnswers(w, r, http.StatusUnprocessableEntity, answers, err.Error()+". Nothing was written.")
		return
	}
	slug, err := h.workshop.create(out.File.Rig.About.Name, out.Text)
	if err != nil {
		h.showAnswers(w, r, http.StatusInternalServerError, answers, "The rig could not be written: "+plainReason(err)+". Nothing was left behind; the answers still stand here.")
		return
	}
	http.Redirect(w, r, h.workshop.address(slug)+"/", http.StatusSeeOther)
}

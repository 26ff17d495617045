package web

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"sync"

	"ampstead/sheet"
)

// views are the templates of one rig's pages. Each is made when it is first asked
// for, so that a server that starts need not make two dozen.
type views struct {
	shared *template.Template // the parts of every page; copied, never executed
	own    template.FuncMap   // what differs from rig to rig

	mu   sync.Mutex
	made map[string]*template.Template
}

func newViews(shared *template.Template, own template.FuncMap) *views {
	return &views{shared: shared, own: own, made: map[string]*template.Template{}}
}

// execute writes one named template of a view.
func (v *views) execute(w io.Writer, view, name string, data any) error {
	t, err := v.get(view)
	if err != nil {
		return err
	}
	return t.ExecuteTemplate(w, name, data)
}

func (v *views) get(name string) (*template.Template, error) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if t := v.made[name]; t != nil {
		return t, nil
	}
	if !slices.Contains(viewNames, name) {
		return nil, fmt.Errorf("there is no page template %q", name)
	}
	t, err := v.shared.Clone()
	if err == nil {
		t, err = sheet.Bind(t).Funcs(v.own).ParseFS(templateFiles, "templates/"+name+".html")
	}
	if err != nil {
		return nil, fmt.Errorf("page templates: %w", err)
	}
	v.made[name] = t
	return t, nil
}

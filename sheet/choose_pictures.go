package sheet

import "ampstead/picture"

// ComparePicture is the batteries side by side.
func (m *Model) ComparePicture() Drawings {
	if m.Compared == nil {
		return Drawings{}
	}
	return m.drawn("compare", "The line through a mark is how far it may be off; no line where that is not reckoned.", picture.Options{}, func(o picture.Options) string { return picture.Compare(m.Compared.res, o) })
}

// LivesPicture is the capacity of each battery over the years.
func (m *Model) LivesPicture() Drawings {
	if m.Compared == nil {
		return Drawings{}
	}
	return m.drawn("compare", "Each battery in its own frame, the others as hairlines behind it. The pale ground is the band of its model.", picture.Options{}, func(o picture.Options) string { return picture.Lives(m.Compared.res, o) })
}

// FrontPicture is the trade-off front of a search.
func (m *Model) FrontPicture() Drawings {
	if m.Compared == nil || len(m.Compared.res.Front) == 0 {
		return Drawings{}
	}
	c := m.Compared
	axes, caption, picked := c.Axes.whole(c.res), "", ""
	if c.Pick != "" {
		caption = "Press a point to see what that rig is and what it would change in the file."
	}
	if c.Picked != nil {
		picked = c.Picked.Name
	}
	link := func(name string) string {
		if c.Pick == "" {
			return ""
		}
		return designAddress(c.Pick, name, axes)
	}
	return m.drawn("compare", caption, picture.Options{}, func(o picture.Options) string {
		return picture.Front(c.res, picture.FrontView{Across: axes.Across, Up: axes.Up, Picked: picked, Link: link}, o)
	})
}

// WindowsPicture is what each daily window brings and costs.
func (m *Model) WindowsPicture() Drawings {
	if m.Compared == nil || len(m.Compared.res.Window) == 0 {
		return Drawings{}
	}
	return m.drawn("compare", "", picture.Options{}, func(o picture.Options) string { return picture.Windows(m.Compared.res, o) })
}

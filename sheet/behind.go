package sheet

import "ampstead/figure"

// behind notes which figures stand behind each part.
func (b *builder) behind(m *Model) {
	m.WindowFigures = figure.Names(append(append([]figure.Use{}, b.res.Window.How...), b.res.Daily.How...))
	var layers, choices, settings []figure.Use
	for _, l := range b.res.Layers {
		layers = append(layers, l.How...)
		for _, member := range l.Members {
			layers = append(layers, member.How...)
		}
	}
	for _, c := range b.res.Choices {
		choices = append(choices, c.How...)
	}
	for _, s := range b.res.Settings {
		settings = append(settings, s.How...)
	}
	m.LayerFigures, m.ChoiceFigures, m.SettingFigures = figure.Names(layers), figure.Names(choices), figure.Names(settings)
}

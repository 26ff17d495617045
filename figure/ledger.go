package figure

// Ledger keeps every figure that one piece of work applies, so that its numbers
// can explain themselves, and the first failure.
type Ledger struct {
	Uses []Use
	Err  error
}

// Use computes a figure and keeps the application. After a failure the result is
// empty and Err is set: the work goes on and is thrown away at its end.
func (l *Ledger) Use(f *Figure, in ...Arg) Use {
	u, err := l.Try(f, in...)
	if err != nil {
		l.Fail(err)
	}
	return u
}

// Try is Use for a figure whose failure the caller has more to say about.
func (l *Ledger) Try(f *Figure, in ...Arg) (Use, error) {
	u, err := f.Use(in...)
	if err == nil {
		l.Uses = append(l.Uses, u)
	}
	return u, err
}

// Fail keeps the first failure.
func (l *Ledger) Fail(err error) {
	if l.Err == nil {
		l.Err = err
	}
}

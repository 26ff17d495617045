package benchlog

import "math"

// words of the layout for the sign of current.
const (
	chargePositive    = "charge positive"
	dischargePositive = "discharge positive"
	noSign            = "no sign"
)

const (
	maxHeld      = 200_000  // rows held back while the sign is not told
	maxHeldBytes = 24 << 20 // and their size
	maxStretch   = 5000     // rows of one stretch held back for its direction
)

// signer gives currents their sign. Rows are held back until the sign is told.
// A file whose current is never negative may have left the sign out, so there
// each stretch of load is told by itself.
type signer struct {
	fixed     float64 // sign by which currents are multiplied, 0 until told
	evidence  evidence
	held      held
	inStretch bool
	stretch   float64 // weight for "this stretch charges"
	direction float64 // of the stretch, 0 until told
	usual     float64 // direction of stretches that tell nothing
	both      [2]bool // directions given out in a file without sign
	assumed   bool
	emit      func(record []float64, sign float64) error
}

// take passes a record on, now or later, with its sign. cut: the row does not
// follow the one before.
func (s *signer) take(rec []float64, cut bool) error {
	if s.fixed != 0 {
		return s.emit(rec, s.fixed)
	}
	if cut {
		if err := s.endStretch(); err != nil {
			return err
		}
		s.evidence.cut()
	}
	v := rec[recordHead:]
	hint := s.evidence.take(point{v[slotVolts], v[slotAmps], v[slotAh], v[slotSoC]}, v[slotState])
	if s.evidence.signed() {
		return s.takeSigned(rec)
	}
	return s.takeUnsigned(rec, v[slotAmps], v[slotState], hint)
}

// takeSigned holds rows until the sign of the whole file is told.
func (s *signer) takeSigned(rec []float64) error {
	s.inStretch = false
	sign := s.evidence.decided()
	if sign == 0 && !s.held.full() {
		s.held.add(rec)
		return nil
	}
	if sign == 0 {
		sign = s.guess()
	}
	s.fixed = sign
	if err := s.held.release(s.emit, sign); err != nil {
		return err
	}
	return s.emit(rec, sign)
}

// takeUnsigned holds the rows of a stretch until its direction is told.
func (s *signer) takeUnsigned(rec []float64, a, state, hint float64) error {
	loaded := math.Abs(a) > restShare*s.evidence.maxA
	if !loaded {
		if err := s.endStretch(); err != nil {
			return err
		}
		if s.usual == 0 && !s.held.full() {
			s.held.add(rec)
			return nil
		}
		return s.out(rec, s.usualOr())
	}
	if way := s.flipped(state); way != 0 {
		if err := s.endStretch(); err != nil {
			return err
		}
		hint = enough * way
	}
	if !s.inStretch {
		s.inStretch, s.stretch, s.direction = true, 0, 0
	}
	s.stretch += hint
	return s.loaded(rec)
}

// loaded adds a row to the stretch and lets it go once the direction is told.
func (s *signer) loaded(rec []float64) error {
	if s.direction == 0 {
		s.direction = s.told()
	}
	if s.direction == 0 {
		if s.usual == 0 && !s.held.full() || s.usual != 0 && s.held.rows < maxStretch {
			s.held.add(rec)
			return nil
		}
		s.direction = s.usualOr()
	}
	if s.usual == 0 {
		s.usual = s.direction
	}
	if err := s.release(s.direction); err != nil {
		return err
	}
	return s.out(rec, s.direction)
}

// told returns the direction of the stretch when its weight is enough; more is
// asked for one that differs from the rest.
func (s *signer) told() float64 {
	need := 2.0
	if s.usual != 0 && s.usual*s.stretch < 0 {
		need = enough
	}
	if math.Abs(s.stretch) < need {
		return 0
	}
	return math.Copysign(1, s.stretch)
}

// flipped returns the direction of a new stretch that begins without a rest
// before it, or 0: the state says so, or the voltage jumps by more than the
// change of load explains.
func (s *signer) flipped(state float64) float64 {
	e := &s.evidence
	if !s.inStretch || e.seen < 2 {
		return 0
	}
	if state*s.direction < 0 {
		return state
	}
	a, b := e.last[2], e.last[3]
	jump := b.v - a.v
	explained := 0.01*math.Abs(b.v) + 2*e.answer*math.Abs(b.a-a.a)
	if math.Abs(jump) > explained && math.Abs(b.a-a.a) < 0.5*b.a && s.direction*jump < 0 {
		return math.Copysign(1, jump)
	}
	return 0
}

func (s *signer) endStretch() error {
	if !s.inStretch {
		return nil
	}
	s.inStretch = false
	if s.direction == 0 && s.usual == 0 {
		if lean := s.evidence.leaning(); lean == 0 {
			return nil
		}
		s.usual = s.evidence.leaning()
	}
	if s.direction == 0 {
		s.direction = s.usual
	}
	return s.release(s.direction)
}

// finish lets go what is still held at the end of the file.
func (s *signer) finish() error {
	if s.fixed != 0 {
		return s.held.release(s.emit, s.fixed)
	}
	if s.evidence.signed() {
		s.fixed = s.guess()
		return s.held.release(s.emit, s.fixed)
	}
	if s.direction != 0 && s.inStretch {
		return s.release(s.direction)
	}
	if s.inStretch && s.stretch != 0 {
		s.usual = math.Copysign(1, s.stretch)
	}
	return s.release(s.usualOr())
}

// guess is the sign when the evidence does not decide.
func (s *signer) guess() float64 {
	if lean := s.evidence.leaning(); lean != 0 {
		return lean
	}
	s.assumed = true
	return 1
}

func (s *signer) usualOr() float64 {
	if s.usual == 0 {
		s.usual = s.guess()
	}
	return s.usual
}

func (s *signer) release(direction float64) error {
	if s.held.rows > 0 {
		s.mark(direction)
	}
	return s.held.release(s.emit, direction)
}

func (s *signer) out(rec []float64, direction float64) error {
	if s.inStretch {
		s.mark(direction)
	}
	return s.emit(rec, direction)
}

func (s *signer) mark(direction float64) { s.both[boolTo(direction > 0)] = true }

// describe returns what the sign is and how it was told.
func (s *signer) describe() (sign, how string) {
	d := s.fixed
	if d == 0 {
		if s.both[0] && s.both[1] {
			return noSign, "each stretch by " + s.stretchWords()
		}
		d = s.usualOr()
	}
	sign = chargePositive
	if d < 0 {
		sign = dischargePositive
	}
	if s.assumed {
		return sign, "assumed: nothing in the file tells it"
	}
	return sign, s.evidence.how(d)
}

func (s *signer) stretchWords() string {
	e := &s.evidence
	if e.plus[byState] > 0 || e.minus[byState] > 0 {
		return "the column that names what is done"
	}
	return "whether the voltage rises or falls"
}

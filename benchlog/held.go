package benchlog

// heldRows is the number of records in one piece of held.
const heldRows = 1024

// held keeps records in order, in pieces that are used again.
type held struct {
	width  int // numbers of one record
	rows   int
	pieces [][]float64
}

func (h *held) full() bool {
	return h.rows >= maxHeld || h.rows*h.width*8 >= maxHeldBytes
}

func (h *held) add(rec []float64) {
	at := h.rows / heldRows
	if at == len(h.pieces) {
		h.pieces = append(h.pieces, make([]float64, 0, heldRows*h.width))
	}
	if h.rows%heldRows == 0 {
		h.pieces[at] = h.pieces[at][:0]
	}
	h.pieces[at] = append(h.pieces[at], rec...)
	h.rows++
}

// release hands out what is held, oldest first.
func (h *held) release(emit func([]float64, float64) error, sign float64) error {
	rows := h.rows
	h.rows = 0
	for i := range rows {
		from := i % heldRows * h.width
		if err := emit(h.pieces[i/heldRows][from:from+h.width], sign); err != nil {
			return err
		}
	}
	if len(h.pieces) > 8 {
		h.pieces = nil // let go of what a long wait took
	}
	return nil
}

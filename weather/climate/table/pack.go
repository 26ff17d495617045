package table

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// magic opens every packed table; the digit is the version of the layout.
const magic = "AMPGRID1"

// ErrDamaged says that a packed table is not one, or is cut short.
var ErrDamaged = errors.New("damaged table")

// Write packs grids.
func Write(w io.Writer, grids ...*Grid) error {
	z, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	text := binary.AppendUvarint([]byte(magic), uint64(len(grids)))
	for _, g := range grids {
		text = g.append(text)
	}
	if _, err := z.Write(text); err != nil {
		return err
	}
	return z.Close()
}

func (g *Grid) append(b []byte) []byte {
	for _, v := range []float64{g.South, g.West, g.Step} {
		b = appendFloat(b, v)
	}
	for _, n := range []int{g.Rows, g.Cols, len(g.Layers)} {
		b = binary.AppendUvarint(b, uint64(n))
	}
	for _, l := range g.Layers {
		b = appendFloat(b, l.Unit)
		b = l.append(b)
	}
	return b
}

// append writes differences shifted by one, so that 0 can stand for a node
// without a value.
func (l *Layer) append(b []byte) []byte {
	last := int64(0)
	for _, v := range l.Values {
		if v == Missing {
			b = append(b, 0)
			continue
		}
		d := int64(v) - last
		b = binary.AppendUvarint(b, uint64(d<<1^d>>63)+1)
		last = int64(v)
	}
	return b
}

func appendFloat(b []byte, v float64) []byte {
	return binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
}

// Limits that keep a damaged table from asking for the machine's memory.
const (
	mostGrids, mostLayers = 8, 64
	mostRows, mostCols    = 2000, 4000
	mostBytes             = 64 << 20
)

// Read unpacks grids. Errors: ErrDamaged.
func Read(r io.Reader) ([]*Grid, error) {
	z, err := gzip.NewReader(r)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	text, err := io.ReadAll(io.LimitReader(z, mostBytes))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	if !bytes.HasPrefix(text, []byte(magic)) {
		return nil, fmt.Errorf("%w: it does not begin with %s", ErrDamaged, magic)
	}
	d := decoder{rest: text[len(magic):]}
	grids := make([]*Grid, d.count(mostGrids))
	for i := range grids {
		grids[i] = d.grid()
	}
	if d.err != nil {
		return nil, fmt.Errorf("%w: %w", ErrDamaged, d.err)
	}
	return grids, nil
}

// decoder keeps what is left to read and the first error.
type decoder struct {
	rest []byte
	err  error
}

func (d *decoder) grid() *Grid {
	g := &Grid{South: d.float(), West: d.float(), Step: d.float()}
	g.Rows, g.Cols = d.count(mostRows), d.count(mostCols)
	layers := d.count(mostLayers)
	for range layers {
		l := Layer{Unit: d.float()}
		l.Values = d.values(g.Rows * g.Cols)
		if d.err != nil {
			break
		}
		g.Layers = append(g.Layers, l)
	}
	return g
}

// values grows with what is read, so that a false size costs nothing.
func (d *decoder) values(n int) []int16 {
	values := make([]int16, 0, min(n, len(d.rest)))
	last := int64(0)
	for len(values) < n && d.err == nil {
		u := d.uvarint()
		if u == 0 {
			values = append(values, Missing)
			continue
		}
		u--
		last += int64(u>>1) ^ -int64(u&1)
		if last <= Missing || last > math.MaxInt16 {
			d.fail(fmt.Errorf("value %d is too large", last))
		}
		values = append(values, int16(last))
	}
	return values
}

func (d *decoder) count(most uint64) int {
	n := d.uvarint()
	if n > most {
		d.fail(fmt.Errorf("count of %d is more than %d", n, most))
		return 0
	}
	return int(n)
}

func (d *decoder) uvarint() uint64 {
	if len(d.rest) > 0 && d.rest[0] < 0x80 { // nearly all of them
		u := uint64(d.rest[0])
		d.rest = d.rest[1:]
		return u
	}
	u, n := binary.Uvarint(d.rest)
	if n <= 0 {
		d.fail(io.ErrUnexpectedEOF)
		return 0
	}
	d.rest = d.rest[n:]
	return u
}

func (d *decoder) float() float64 {
	if len(d.rest) < 8 {
		d.fail(io.ErrUnexpectedEOF)
		return 0
	}
	bits := binary.LittleEndian.Uint64(d.rest)
	d.rest = d.rest[8:]
	return math.Float64frombits(bits)
}

func (d *decoder) fail(err error) {
	if d.err == nil {
		d.err = err
	}
}

package store

import (
	"encoding/binary"
	"errors"
	"math"
)

// A column is packed without loss by the first of these that keeps every value
// exactly. What comes from a meter or a message has few decimals, so it is almost
// always the first: the difference to the value before, as a whole number of the
// last decimal, in one or two bytes instead of eight.
const (
	mostDecimals = 9  // modes 0 to 9: so many decimals
	asFloat32    = 32 // mode: 4 bytes each
	asFloat64    = 64 // mode: 8 bytes each
	exact        = 1 << 53
)

var errPacked = errors.New("the packed values do not hold together")

var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12}

// scaled is v as a whole number of 10^-decimals, if it is exactly that. A decimal
// read from text is: both the reading and the division below round to the nearest.
func scaled(v float64, decimals int) (int64, bool) {
	n := math.Round(v * tens[decimals])
	return int64(n), math.Abs(n) < exact && n/tens[decimals] == v
}

// decimals is how many decimals hold all values exactly, or -1.
func decimals(values []float64) int {
	k := 0
	for _, v := range values {
		for {
			if _, ok := scaled(v, k); ok {
				break
			}
			if k++; k > mostDecimals {
				return -1
			}
		}
	}
	for _, v := range values { // large values may not bear the last one's decimals
		if _, ok := scaled(v, k); !ok {
			return -1
		}
	}
	return k
}

// packColumn appends the packed values. Their number is not packed.
func packColumn(to []byte, values []float64) []byte {
	if k := decimals(values); k >= 0 {
		to = append(to, byte(k))
		var last int64
		for _, v := range values {
			n, _ := scaled(v, k)
			to = binary.AppendVarint(to, n-last)
			last = n
		}
		return to
	}
	for _, v := range values {
		if float64(float32(v)) != v {
			return packWide(to, values)
		}
	}
	to = append(to, asFloat32)
	for _, v := range values {
		to = binary.LittleEndian.AppendUint32(to, math.Float32bits(float32(v)))
	}
	return to
}

func packWide(to []byte, values []float64) []byte {
	to = append(to, asFloat64)
	for _, v := range values {
		to = binary.LittleEndian.AppendUint64(to, math.Float64bits(v))
	}
	return to
}

// unpacker reads what was packed. After the first error it yields zeros.
type unpacker struct {
	rest []byte
	err  error
}

func (u *unpacker) take(n int) []byte {
	if u.err != nil || len(u.rest) < n {
		u.err = errPacked
		return make([]byte, n)
	}
	part := u.rest[:n]
	u.rest = u.rest[n:]
	return part
}

func (u *unpacker) signed() int64 {
	v, n := binary.Varint(u.rest)
	if u.err != nil || n <= 0 {
		u.err = errPacked
		return 0
	}
	u.rest = u.rest[n:]
	return v
}

func (u *unpacker) unsigned() uint64 {
	v, n := binary.Uvarint(u.rest)
	if u.err != nil || n <= 0 {
		u.err = errPacked
		return 0
	}
	u.rest = u.rest[n:]
	return v
}

// column fills values, which the caller has bounded by the length of the rest.
func (u *unpacker) column(values []float64) {
	switch mode := int(u.take(1)[0]); {
	case u.err != nil:
	case mode <= mostDecimals:
		var n int64
		for i := range values {
			n += u.signed()
			values[i] = float64(n) / tens[mode]
		}
	case mode == asFloat32:
		for i := range values {
			values[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32(u.take(4))))
		}
	case mode == asFloat64:
		for i := range values {
			values[i] = math.Float64frombits(binary.LittleEndian.Uint64(u.take(8)))
		}
	default:
		u.err = errPacked
	}
}

// packSteps appends rising whole numbers: the first, then the change of step from
// one to the next, a run of unchanged steps as a zero and its length. A regular
// rhythm takes a few bytes in all.
func packSteps(to []byte, at []int64) []byte {
	var last, step int64
	for i := 0; i < len(at); i++ {
		change := at[i] - last - step
		last, step = at[i], at[i]-last
		to = binary.AppendVarint(to, change)
		if change != 0 {
			continue
		}
		run := i
		for i+1 < len(at) && at[i+1]-last == step {
			i++
			last = at[i]
		}
		to = binary.AppendUvarint(to, uint64(i-run))
	}
	return to
}

// steps fills at; numbers that do not rise, or leave 0 to below, are an error.
func (u *unpacker) steps(at []int64, below int64) {
	var last, step, run int64
	for i := range at {
		if run > 0 {
			run--
		} else if change := u.signed(); change != 0 {
			step += change
		} else {
			run = int64(min(u.unsigned(), uint64(len(at))))
		}
		next := last + step
		if next < 0 || next >= below || (i > 0 && next <= last) {
			u.err = errPacked
		}
		if u.err != nil {
			return
		}
		at[i], last = next, next
	}
}

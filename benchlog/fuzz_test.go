package benchlog

import (
	"bytes"
	"context"
	"testing"
)

// FuzzRead: no bytes make Read panic, and the rows it gives keep the promises
// of Row.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{short, "time_s,voltage_v,current_a\n0,3.7,-2\n1,3.6,-2\n", "\ufefft;u;i\r\n0,0;3,7;1\r\n", "12.11.2023 10:00:00\t3.7\t1\n12.11.2023 10:00:01\t3.7\t1\n",
		"\xff\xfet\x00;\x00v\x00\n\x001\x00;\x002\x00\n\x00", "1 2 3\n2 2 3\n1 2 3\n", "a,\"b\n,\"\",\n1,\"2\",3", "PK\x03\x04", "\x1f\x8b\x08", "BZh9", "x\x9c", "t,v\r1,2\r2,3\r", "0:00,3.7\n23:59,3.8\n0:01,3.9\n", "Nov 11 2023,3\nNov 12 2023,3"} {
		f.Add([]byte(seed), "", "")
	}
	f.Add([]byte(short), "10 s", "group 3 mV")
	f.Fuzz(func(t *testing.T, data []byte, time, role string) {
		o := Options{Time: time}
		if role != "" {
			o.Columns = map[string]string{"2": role}
		}
		last, rows := -1.0, 0
		sum, err := Read(context.Background(), "fuzz", bytes.NewReader(data), o, func(r *Row) error {
			rows++
			if !(r.Time >= last) {
				t.Fatalf("time %g after %g", r.Time, last)
			}
			last = r.Time
			return nil
		})
		if err == nil && (sum.Rows != rows || sum.Layout.Line == "" || len(sum.Unread) > keptUnread) {
			t.Fatalf("%d rows, summary %+v", rows, sum)
		}
		if err != nil && err.Error() == "" {
			t.Fatal("an error without words")
		}
	})
}

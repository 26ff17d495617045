package store

import (
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"sync/atomic"
	"testing"
	"time"

	_ "ampstead/internal/fixedseed"
)

// serverVariable names the server that the tests may use; each makes a schema of
// its own there and drops it again.
const serverVariable = "AMPSTEAD_POSTGRES"

// testNow is later than any time in the tests, so that no test depends on the day.
var testNow = time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC)

func testClock() time.Time { return testNow }

// place is where a test's logbook is.
type place struct {
	where  string
	server bool
}

// open opens it and closes it at the end.
func (p place) open(t testing.TB) *Book {
	t.Helper()
	b, err := Open(context.Background(), p.where, Options{Rig: "curlew", Now: testClock})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

// onBoth runs a test on a folder and, where there is one, on a server.
func onBoth(t *testing.T, test func(t *testing.T, p place)) {
	t.Run("sqlite", func(t *testing.T) { test(t, place{t.TempDir(), false}) })
	t.Run("postgres", func(t *testing.T) { test(t, place{server(t), true}) })
}

var schemas atomic.Int64

// server is the address of an empty schema.
func server(t testing.TB) string {
	t.Helper()
	address := os.Getenv(serverVariable)
	if address == "" {
		t.Skipf("%s names no server; .ci/postgres starts one", serverVariable)
	}
	at, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("pgx", address)
	if err != nil {
		t.Fatal(err)
	}
	schema := fmt.Sprintf("test_%d_%d", os.Getpid(), schemas.Add(1))
	if _, err := db.Exec("CREATE SCHEMA " + schema); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if _, err := db.Exec("DROP SCHEMA " + schema + " CASCADE"); err != nil {
			t.Error(err)
		}
		db.Close()
	})
	query := at.Query()
	query.Set("search_path", schema)
	at.RawQuery = query.Encode()
	return at.String()
}

func num(v float64) *float64 { return &v }

// visit is a reading of a few groups, a day after the one before it.
func visit(i int) Reading {
	return Reading{
		ID: fmt.Sprintf("visit-%d", i), Taken: yearStart.AddDate(0, 0, i),
		Groups: []*float64{num(3.801), nil, num(3.8 + float64(i)/1000)}, BankV: num(45.6), Amps: num(-0.2),
		TempsC: []float64{12.5, 13}, RestH: num(8), Meter: "bench", Note: "dawn, °C by touch",
	}
}

func add(t testing.TB, b *Book, r Reading) Reading {
	t.Helper()
	stored, fresh, err := b.Add(context.Background(), r)
	if err != nil || !fresh {
		t.Fatalf("Add(%s): fresh %v, %v", r.ID, fresh, err)
	}
	return stored
}

func readings(t testing.TB, b *Book) []Reading {
	t.Helper()
	list, err := b.Readings(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return list
}

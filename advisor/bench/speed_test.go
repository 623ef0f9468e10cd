package bench_test

import (
	"bytes"
	"context"
	"runtime"
	"testing"

	"hotroom/advisor/bench"
	"hotroom/advisor/bench/logfile"
)

// dayLog is a day at ten samples a second: 864,000 rows.
func dayLog() []byte {
	s := usual()
	s.everyS, s.idleS, s.loadS, s.coolS = 0.1, 200, 86_100, 100
	return []byte(s.text(writing{}))
}

// A day at ten samples a second is to take less than 2 s.
func BenchmarkDay(b *testing.B) {
	text := dayLog()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		l, err := logfile.Read(context.Background(), "day.csv", bytes.NewReader(text), logfile.Options{Size: int64(len(text))})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := bench.Reduce(context.Background(), l, bench.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// It takes less than 200 MiB even if nothing were ever collected.
func TestDayFitsInMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("SKIPPED, NOT CHECKED: -short leaves out what makes 864,000 rows")
	}
	text := dayLog()
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	l, err := logfile.Read(context.Background(), "day.csv", bytes.NewReader(text), logfile.Options{Size: int64(len(text))})
	if err != nil {
		t.Fatal(err)
	}
	r, err := bench.Reduce(context.Background(), l, bench.Options{})
	if err != nil {
		t.Fatal(err)
	}
	runtime.ReadMemStats(&after)
	if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 200 {
		t.Errorf("a day at ten samples a second takes %d MiB in all", used)
	}
	if l.Rows != 864_000 || r.Quality.SettleC == nil {
		t.Errorf("%d rows, %v", l.Rows, r.Quality.Reasons)
	}
}

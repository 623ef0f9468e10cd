package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// mostStriking bounds how long a process is struck at its moments, so that a
// slow machine strikes fewer times.
const mostStriking = 3 * time.Second

// moments spreads up to so many moments, a quarter of them at least, evenly over
// a time and a half, each a little off: the first are early in a process's life,
// the last after its end.
func moments(most int, over time.Duration) []time.Duration {
	many := max(most/4, min(most, int(mostStriking/over)))
	random := rand.New(rand.NewPCG(25, 11))
	list := make([]time.Duration, many)
	for i := range list {
		list[i] = time.Duration((float64(i) + random.Float64()) / float64(many) * 1.5 * float64(over))
	}
	return list
}

// struck runs the program and sends it a signal after a while.
func struck(t *testing.T, c *exec.Cmd, after time.Duration, with syscall.Signal) outcome {
	t.Helper()
	end := begin(t, c)
	strike := time.AfterFunc(after, func() { _ = c.Process.Signal(with) }) // it may have ended
	defer strike.Stop()
	return end()
}

// took measures how long a command takes when nothing happens to it: the least
// of three times.
func took(t *testing.T, command func(n int) *exec.Cmd) time.Duration {
	t.Helper()
	least := time.Hour
	for n := range 3 {
		c := command(n)
		began := time.Now()
		if o := try(t, c); o.code != 0 {
			t.Fatalf("%v: %+v", c.Args, o)
		}
		least = min(least, time.Since(began))
	}
	return least
}

// A recorder is killed at up to thirty moments of its life. After each runs.csv has
// the old bytes, or those and the whole new row; a run that was acknowledged is
// there; and the next recorder is not kept waiting by the dead one.
func TestFaultKilledRecord(t *testing.T) {
	folder := ownFolder(t)
	span := took(t, func(n int) *exec.Cmd { return recorded(folder, "first"+strconv.Itoa(n)) })
	first := rowOf(t, folder, "k")
	before := read(t, folder, "runs.csv")
	killed, kept, all := 0, 0, moments(30, span)
	for i, after := range all {
		id := "k" + strconv.Itoa(i)
		row := id + strings.TrimPrefix(first, "k")
		o := struck(t, recorded(folder, id), after, syscall.SIGKILL)
		now := read(t, folder, "runs.csv")
		if now != before && now != before+row {
			t.Fatalf("killed after %s, runs.csv is\n%s\nand was\n%s", after, now, before)
		}
		if acknowledged := o.out != "" || strings.Contains(o.messages, "recorded as"); acknowledged && now == before {
			t.Fatalf("killed after %s, %s was acknowledged and is not there", after, id)
		}
		if o.signal == syscall.SIGKILL {
			killed++
		}
		if now != before {
			kept++
		}
		before = now
	}
	t.Logf("%d of %d were killed, %d runs are there", killed, len(all), kept)
	if killed < len(all)/8 {
		t.Errorf("only %d were killed", killed)
	}
	try(t, recorded(folder, "last")).wants(t, "the next", 0, "recorded as last")
	if o := try(t, hotroom("check", "--knowledge", folder)); o.code != 0 {
		t.Errorf("check says %s", o.messages)
	}
}

// A server is killed while it records what four clients send. What it has
// answered with 201 is there, and the folder serves again at once.
func TestFaultKilledServe(t *testing.T) {
	folder, random := ownFolder(t), rand.New(rand.NewPCG(25, 12))
	var mu sync.Mutex
	var acknowledged []string
	for round := range 5 {
		s := serve(t, "--knowledge", folder, "--token-file", tokenFile(t), "--log", "errors")
		var clients sync.WaitGroup
		for client := range 4 {
			clients.Go(func() {
				for n := 0; ; n++ {
					id := fmt.Sprintf("r%d-%d-%d", round, client, n)
					status, body, err := s.record(id)
					if err != nil {
						return // it was killed
					}
					if status != 201 {
						t.Errorf("%s: %d %s", id, status, body)
						return
					}
					mu.Lock()
					acknowledged = append(acknowledged, id)
					mu.Unlock()
				}
			})
		}
		if round == 0 {
			until(t, "a run", func() bool {
				mu.Lock()
				defer mu.Unlock()
				return len(acknowledged) > 0
			})
		}
		time.Sleep(time.Duration(random.IntN(200)) * time.Millisecond)
		if err := s.process.Kill(); err != nil {
			t.Fatal(err)
		}
		clients.Wait()
		<-s.ended
	}
	if o := try(t, hotroom("check", "--knowledge", folder)); o.code != 0 {
		t.Errorf("check says %s", o.messages)
	}
	runs := read(t, folder, "runs.csv")
	for _, id := range acknowledged {
		if strings.Count(runs, "\n"+id+",") != 1 {
			t.Errorf("%s was acknowledged and is not there once", id)
		}
	}
	t.Logf("%d runs were acknowledged", len(acknowledged))
}

// A publisher is killed at up to thirty moments, while it replaces one guide by
// another. After each every file under its real name is whole; what a killed one
// left is mended by the next that ends.
func TestFaultKilledPublish(t *testing.T) {
	older, newer := guides(t)
	out := filepath.Join(t.TempDir(), "guide")
	turn := func(n int) *exec.Cmd { return [2]guide{older, newer}[n%2].command(out) }
	span := took(t, turn)
	killed, left, all := 0, 0, moments(30, span)
	for i, after := range all {
		if o := struck(t, turn(i+1), after, syscall.SIGKILL); o.signal == syscall.SIGKILL {
			killed++
		}
		left += eachWhole(t, out, older, newer)
		if t.Failed() {
			t.Fatalf("killed after %s", after)
		}
	}
	t.Logf("%d of %d were killed; they left %d half-written files beside the real ones", killed, len(all), left)
	if killed < len(all)/8 {
		t.Errorf("only %d were killed", killed)
	}
	older.publish(t, out)
	for _, name := range []string{"index.html", ".hotroom-published.json", "boards/slate.html"} {
		write(t, filepath.Join(out, filepath.Dir(name), "."+filepath.Base(name)+".new"), "half") // as a killed one may leave it
	}
	older.publish(t, out)
}

// Two publishers do not write into one folder at the same time.
func TestFaultTwoPublishers(t *testing.T) {
	older, newer := guides(t)
	out := filepath.Join(t.TempDir(), "guide")
	older.publish(t, out)
	folder, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	if err := syscall.Flock(int(folder.Fd()), syscall.LOCK_EX); err != nil {
		t.Fatal(err)
	}
	try(t, newer.command(out)).wants(t, "the second", 1, `hotroom: somebody else publishes into "`+out+`" just now: wait until that has ended, or choose another folder with --out`)
	if left := eachWhole(t, out, older); left > 0 {
		t.Errorf("%d files are left beside", left)
	}
	_ = folder.Close() // and with it the lock
	newer.publish(t, out)
}

package web

import (
	"context"
	"fmt"
	"sync"
	"sync/atomic"
	"time"

	"hotroom/advisor"
	"hotroom/knowledge/document"
)

// store holds the newest good state. Everything is read, checked and worked up
// beside it, and then swapped in at once; what is broken changes nothing.
type store struct {
	current atomic.Pointer[state]
	last    atomic.Pointer[loading]
	source  advisor.Source
	program string
	build   string
	journal *journal
	meter   *meter
	clock   func() time.Time
	one     sync.Mutex // one reload at a time
}

// loading is how the newest reload ended.
type loading struct {
	at       time.Time
	outcome  outcome
	problems []string
}

type outcome string

// How a reload ends.
const (
	loaded    outcome = "loaded"
	unchanged outcome = "unchanged"
	failed    outcome = "failed"
)

func outcomes() []outcome { return []outcome{loaded, unchanged, failed} }

func newStore(first *advisor.Snapshot, o Options, j *journal, m *meter) *store {
	st := &store{source: o.Source, program: o.Program, build: o.Build, journal: j, meter: m, clock: o.Now}
	now := st.clock()
	st.current.Store(newState(first, o.Program, o.Build, now))
	st.last.Store(&loading{at: now, outcome: loaded})
	m.outcome(loaded)
	return st
}

// reload reads everything again.
func (st *store) reload(ctx context.Context) {
	st.one.Lock()
	defer st.one.Unlock()
	if ctx.Err() != nil {
		return
	}
	now := st.clock()
	snapshot, problems, err := advisor.Open(st.source, st.program)
	end := &loading{at: now, outcome: failed, problems: worded(problems, err)}
	if err == nil && snapshot != nil {
		end.outcome = st.take(newState(snapshot, st.program, st.build, now))
	}
	st.last.Store(end)
	st.meter.outcome(end.outcome)
	st.note(end, now)
}

// take puts a state in the place of the current one, unless they are the same.
func (st *store) take(next *state) outcome {
	if next.tag == st.current.Load().tag {
		return unchanged
	}
	st.current.Store(next)
	return loaded
}

func (st *store) note(end *loading, began time.Time) {
	v := st.current.Load().versions
	took := max(0, st.clock().Sub(began)).Milliseconds()
	if end.outcome == failed {
		st.journal.error("reload failed; the last good state still answers", "problems", end.problems, "ms", took, "knowledge", v.Knowledge, "rules", v.Rules)
		return
	}
	st.journal.event("reload", "outcome", string(end.outcome), "ms", took, "knowledge", v.Knowledge, "rules", v.Rules)
}

// mostProblems bounds what readiness and log say of a broken reload.
const mostProblems = 20

// worded says what is wrong with knowledge and rules; warnings only where
// there is nothing worse to say.
func worded(problems document.Problems, err error) []string {
	list := []string{}
	for _, p := range problems {
		if problems.Fatal() == !p.Warning {
			list = append(list, p.String())
		}
	}
	if err != nil {
		list = append(list, err.Error())
	}
	if more := len(list) - mostProblems; more > 0 {
		list = append(list[:mostProblems], fmt.Sprintf("and %d more: `hotroom check` lists them", more))
	}
	return list
}

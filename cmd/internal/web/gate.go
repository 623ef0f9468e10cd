package web

import (
	"context"
	"net/http"
	"runtime"
	"time"
)

// gate lets a bounded number through at once.
type gate chan struct{}

func newGate(most int) gate { return make(gate, most) }

// mostWorking bounds the answers worked out at once: each keeps one processor
// busy, and a few more than there are hide the writing.
func mostWorking() int { return 2*runtime.GOMAXPROCS(0) + 2 }

// mostBulky bounds the long bodies in memory at once.
const mostBulky = 16

// longestWait is how long a request waits at a gate before it is told to come
// again.
const longestWait = 2 * time.Second

func (g gate) enter(ctx context.Context) error {
	select {
	case g <- struct{}{}:
		return nil
	default:
	}
	ctx, cancel := context.WithTimeout(ctx, longestWait)
	defer cancel()
	select {
	case g <- struct{}{}:
		return nil
	case <-ctx.Done():
		return &fault{
			status: http.StatusServiceUnavailable, kind: "busy", retry: time.Second,
			what: "the server is busy with other questions", mend: "try again in a moment",
		}
	}
}

func (g gate) leave() { <-g }

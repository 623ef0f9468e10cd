package web

import (
	"math"
	"net/netip"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// mostClients bounds the table of clients: past it, the one that was silent
// the longest is forgotten and may begin anew.
const mostClients = 10_000

// clients holds each client to a rate.
type clients struct {
	mu     sync.Mutex
	known  *lru[netip.Addr, *rate.Limiter]
	perSec rate.Limit
	atOnce int
}

// newClients is nil where there is no limit.
func newClients(perSecond float64, burst int) *clients {
	if !(perSecond > 0) {
		return nil
	}
	if burst < 1 {
		burst = max(1, int(math.Ceil(2*perSecond)))
	}
	return &clients{known: newLRU[netip.Addr, *rate.Limiter](mostClients), perSec: rate.Limit(perSecond), atOnce: burst}
}

// take counts a request and gives how long its client must wait; 0: it need
// not.
func (c *clients) take(remote string, now time.Time) time.Duration {
	limiter := c.limiter(client(remote))
	r := limiter.ReserveN(now, 1)
	wait := r.DelayFrom(now)
	if wait > 0 {
		r.CancelAt(now)
	}
	return wait
}

func (c *clients) limiter(who netip.Addr) *rate.Limiter {
	c.mu.Lock()
	defer c.mu.Unlock()
	l, ok := c.known.get(who)
	if !ok {
		l = rate.NewLimiter(c.perSec, c.atOnce)
		c.known.put(who, l, 1)
	}
	return l
}

// client is who stands behind an address: of IPv6 the network, since one
// household has a whole one.
func client(remote string) netip.Addr {
	at, err := netip.ParseAddrPort(remote)
	if err != nil {
		return netip.Addr{}
	}
	addr := at.Addr().Unmap().WithZone("")
	if addr.Is6() {
		if net, err := addr.Prefix(64); err == nil {
			return net.Addr()
		}
	}
	return addr
}

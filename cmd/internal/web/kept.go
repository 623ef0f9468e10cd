package web

import (
	"hash/maphash"
	"sync"
)

// kept holds answers by state and target. The state is in the key, so that a
// reload takes nothing away that is still right and gives nothing that is not.
// An answer is kept from the second time on that it is asked for: those that are
// asked for once would only drive out those that are asked for again (common
// practice, no source).
type kept struct {
	mu      sync.Mutex
	entries *lru[place, *entry]
	asked   [onceAsked]uint32 // a print of the last place that came to each
	seed    maphash.Seed
	hits    int64
	misses  int64
}

// place is where an answer is kept: the tag of the state that it was made
// from, and the target as the client wrote it.
type place struct{ state, target string }

// onceAsked is how many places are remembered at most that were asked for once.
const onceAsked = 1 << 16

// usualCacheMB is the memory for answers where none is given, MiB: some
// thousand answers.
const usualCacheMB = 64

func newKept(mebibytes int) *kept {
	if mebibytes <= 0 {
		mebibytes = usualCacheMB
	}
	return &kept{entries: newLRU[place, *entry](mebibytes << 20), seed: maphash.MakeSeed()}
}

func (k *kept) get(state, target string) (*entry, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	e, ok := k.entries.get(place{state, target})
	if ok {
		k.hits++
	} else {
		k.misses++
	}
	return e, ok
}

// again reports whether an answer was asked for before, and remembers that it
// was now. It may forget, and one time in 2³² it is wrong.
func (k *kept) again(state, target string) bool {
	print := maphash.Comparable(k.seed, place{state, target})
	k.mu.Lock()
	defer k.mu.Unlock()
	last := &k.asked[print%onceAsked]
	before := *last == uint32(print>>32)
	*last = uint32(print >> 32)
	return before
}

func (k *kept) put(state, target string, e *entry) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.entries.put(place{state, target}, e, e.size()+len(target))
}

// counts gives entries, bytes, hits and misses.
func (k *kept) counts() (entries, bytes int, hits, misses int64) {
	k.mu.Lock()
	defer k.mu.Unlock()
	return len(k.entries.nodes), k.entries.weight, k.hits, k.misses
}

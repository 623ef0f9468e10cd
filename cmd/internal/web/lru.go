package web

import "container/list"

// lru keeps values up to a weight and lets go of those that were not used for
// the longest time. It is not safe for concurrent use.
type lru[K comparable, V any] struct {
	most   int
	weight int
	nodes  map[K]*list.Element
	order  *list.List // the last used in front
}

type node[K comparable, V any] struct {
	key    K
	value  V
	weight int
}

func newLRU[K comparable, V any](most int) *lru[K, V] {
	return &lru[K, V]{most: most, nodes: map[K]*list.Element{}, order: list.New()}
}

func (l *lru[K, V]) get(key K) (value V, ok bool) {
	at, ok := l.nodes[key]
	if !ok {
		return value, false
	}
	l.order.MoveToFront(at)
	return at.Value.(*node[K, V]).value, true
}

// put keeps a value; one that is heavier than a sixteenth of the whole is not
// kept, or it would drive out everything else.
func (l *lru[K, V]) put(key K, value V, weight int) {
	if weight > l.most/16 {
		return
	}
	l.drop(l.nodes[key])
	l.nodes[key] = l.order.PushFront(&node[K, V]{key, value, weight})
	l.weight += weight
	for l.weight > l.most {
		l.drop(l.order.Back())
	}
}

func (l *lru[K, V]) drop(at *list.Element) {
	if at == nil {
		return
	}
	n := l.order.Remove(at).(*node[K, V])
	delete(l.nodes, n.key)
	l.weight -= n.weight
}

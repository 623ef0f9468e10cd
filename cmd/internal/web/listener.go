package web

import (
	"net"
	"net/http"
	"runtime"
	"sync"
)

// The HTTP library writes through a buffer of 4 KiB, so that a longer answer
// leaves in two writes: the full buffer, and the rest. Each write costs as much
// as everything else that is done for an answer at hand. Our connections hold a
// full buffer back until what follows it is there, and send both at once.
// Nothing waits in one for long: the library says when a request is done, and
// everything is sent then. If its buffer ever has another length, nothing is
// gathered and nothing else changes.
const fullBuffer = 4 << 10

// listener opens a bounded number of connections at once; further ones wait.
type listener struct {
	net.Listener
	room   chan struct{}
	closed chan struct{}
	once   sync.Once
}

func newListener(l net.Listener, most int) *listener {
	return &listener{Listener: l, room: make(chan struct{}, most), closed: make(chan struct{})}
}

func (l *listener) Accept() (net.Conn, error) {
	select {
	case l.room <- struct{}{}:
	case <-l.closed:
		return nil, net.ErrClosed
	}
	c, err := l.Listener.Accept()
	if err != nil {
		<-l.room
		return nil, err
	}
	return &connection{Conn: c, leave: sync.OnceFunc(func() { <-l.room })}, nil
}

// Close also ends an Accept that waits for room.
func (l *listener) Close() error {
	l.once.Do(func() { close(l.closed) })
	return l.Listener.Close()
}

// connection is one of a listener.
type connection struct {
	net.Conn
	mu    sync.Mutex // whoever writes
	held  []byte
	leave func()
}

func (c *connection) Write(p []byte) (int, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	switch {
	case len(c.held) > 0:
		c.held = append(c.held, p...)
		return len(p), c.send()
	case len(p) == fullBuffer:
		c.held = append(c.held, p...)
		return len(p), nil
	}
	return c.Conn.Write(p)
}

// send writes what is held. Its space is kept, unless an answer was long.
func (c *connection) send() error {
	if len(c.held) == 0 {
		return nil
	}
	_, err := c.Conn.Write(c.held)
	c.held = c.held[:0]
	if cap(c.held) > 8*fullBuffer {
		c.held = nil
	}
	return err
}

// settle sends what is held, unless somebody is writing, who will.
func (c *connection) settle() {
	if c.mu.TryLock() {
		_ = c.send() // whoever reads the connection next meets the error
		c.mu.Unlock()
	}
}

// CloseWrite lets the library end an answer while a body is still arriving, so
// that the client reads the answer before it meets the end.
func (c *connection) CloseWrite() error {
	c.settle()
	if half, ok := c.Conn.(interface{ CloseWrite() error }); ok {
		return half.CloseWrite()
	}
	return nil
}

// Close also ends a write that hangs; it does not wait for it.
func (c *connection) Close() error {
	defer c.leave()
	c.settle()
	return c.Conn.Close()
}

// settleConn sends what is held when a request is done, and lets others who are
// ready go first: the connection's next request is then there more often when
// it is read, and a read that finds nothing costs a twentieth of an answer at
// hand.
func settleConn(c net.Conn, now http.ConnState) {
	if own, ok := c.(*connection); ok && now == http.StateIdle {
		own.settle()
		runtime.Gosched()
	}
}

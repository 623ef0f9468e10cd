//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package publish

import (
	"errors"
	"os"
	"syscall"
)

// lock keeps a folder to one publisher at a time; the kernel gives the lock
// back when the publisher dies. A file system that knows no locks has none.
func lock(root *os.Root) (unlock func(), err error) {
	f, err := root.Open(".")
	if err != nil {
		return nil, err
	}
	unlock = func() { _ = f.Close() } // closing gives the lock back
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); errors.Is(err, syscall.EWOULDBLOCK) {
		unlock()
		return nil, errTaken
	}
	return unlock, nil
}

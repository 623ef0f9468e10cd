//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package journal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"syscall"
	"time"
)

// waitToLock is how long a recorder waits between two tries.
const waitToLock = 5 * time.Millisecond

// lock takes the lock file for this recorder alone, waiting until the context
// ends. The kernel gives it back when the recorder dies; the file stays, since
// removing it would let two recorders lock two files.
func lock(ctx context.Context, path string) (unlock func(), err error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o644)
	if err != nil {
		return nil, fmt.Errorf("the knowledge folder cannot be written to, and the run was not recorded (%w): let yourself write there, or record in a folder where you may", err)
	}
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if err == nil {
			return func() { _ = f.Close() }, nil // closing gives the lock back
		}
		if !errors.Is(err, syscall.EWOULDBLOCK) && !errors.Is(err, syscall.EINTR) {
			return nil, errors.Join(fmt.Errorf("the knowledge folder cannot be locked, and the run was not recorded (%w): keep it on a disk of this machine", err), f.Close())
		}
		select {
		case <-ctx.Done():
			return nil, errors.Join(fmt.Errorf("another recorder holds the knowledge folder: %w", ctx.Err()), f.Close())
		case <-time.After(waitToLock):
		}
	}
}

//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package journal

import (
	"context"
	"errors"
)

// lock refuses where no file lock is known that dies with its process.
func lock(context.Context, string) (unlock func(), err error) {
	return nil, errors.New("recording needs file locks, which this system is not known to have: add the line by hand (--dry-run shows it)")
}

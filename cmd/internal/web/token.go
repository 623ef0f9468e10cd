package web

import (
	"crypto/sha256"
	"crypto/subtle"
	"fmt"
	"io"
	"net/http"
	"os"
	"runtime"
	"strings"

	"hotroom/knowledge/document"
)

// Token is the secret that a client must send to have a run recorded. Only its
// SHA-256 sum is held, so that it can stand in no log and no answer.
type Token struct{ sum [sha256.Size]byte }

// mostTokenBytes bounds what is read of a token file, bytes.
const mostTokenBytes = 4 << 10

// ReadToken reads a token from the first line of a file that nobody but its
// owner may read.
func ReadToken(path string) (*Token, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, unreadToken(path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, unreadToken(path, err)
	}
	// Windows keeps who may read elsewhere: its modes say nothing.
	if mode := info.Mode().Perm(); mode&0o077 != 0 && runtime.GOOS != "windows" {
		return nil, fmt.Errorf("the token file %s is open to others (mode %04o): take that away with chmod 600", path, mode)
	}
	text, err := io.ReadAll(io.LimitReader(f, mostTokenBytes))
	if err != nil {
		return nil, unreadToken(path, err)
	}
	line, _, _ := strings.Cut(string(text), "\n")
	if line = strings.TrimSpace(line); line == "" {
		return nil, fmt.Errorf("the token file %s holds no token: write one into its first line", path)
	}
	return &Token{sha256.Sum256([]byte(line))}, nil
}

// unreadToken says why a token file could not be read.
func unreadToken(path string, err error) error {
	return fmt.Errorf("the token file %s cannot be read (%w): give a file whose first line is the token", path, document.Reason(err))
}

// admit refuses a request that does not bear the token (RFC 6750, 2.1). The
// sums are of one length, and comparing them takes the same time wherever they
// differ.
func (t *Token) admit(r *http.Request) error {
	if given := r.Header["Authorization"]; len(given) == 1 {
		scheme, token, _ := strings.Cut(given[0], " ")
		sum := sha256.Sum256([]byte(strings.TrimSpace(token)))
		if strings.EqualFold(scheme, "Bearer") && subtle.ConstantTimeCompare(sum[:], t.sum[:]) == 1 {
			return nil
		}
	}
	return &fault{
		status: http.StatusUnauthorized, kind: "unauthorized", what: "the request does not bear the token that this takes",
		mend: "send it as Authorization: Bearer TOKEN",
	}
}

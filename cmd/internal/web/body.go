package web

import (
	"fmt"
	"io"
	"mime"
	"net/http"
)

// mostBodyBytes is the longest body that is read, and bulkyBytes the length
// from which bodies wait for their turn.
const (
	mostBodyBytes = 4 << 20
	bulkyBytes    = 64 << 10
)

// body reads a request's body in its bounds.
func (s *Server) body(v *visit) ([]byte, error) {
	r := v.request
	if err := isJSON(r.Header.Get("Content-Type")); err != nil {
		return nil, err
	}
	if coding := r.Header.Get("Content-Encoding"); coding != "" && coding != "identity" {
		return nil, &fault{
			status: http.StatusUnsupportedMediaType, kind: "unsupported-media-type",
			what: fmt.Sprintf("the body comes in the coding %s", quoted(coding)), mend: "send it as it is",
		}
	}
	if r.ContentLength > mostBodyBytes {
		return nil, tooLarge(mostBodyBytes)
	}
	limited := http.MaxBytesReader(v.ResponseWriter, r.Body, mostBodyBytes)
	head, err := io.ReadAll(io.LimitReader(limited, bulkyBytes))
	if err != nil || len(head) < bulkyBytes {
		return head, unread(err)
	}
	if err := s.bulk.enter(r.Context()); err != nil {
		return nil, err
	}
	defer s.bulk.leave()
	rest, err := io.ReadAll(limited)
	return append(head, rest...), unread(err)
}

// unread says why a body did not arrive.
func unread(err error) error {
	if err == nil {
		return nil
	}
	if large := faultOf(err); large != errBroken {
		return large
	}
	return &fault{
		status: http.StatusBadRequest, kind: "bad-body", what: "the body did not arrive whole and in time", mend: "send it again",
	}
}

func tooLarge(most int64) *fault {
	return &fault{
		status: http.StatusRequestEntityTooLarge, kind: "body-too-large", what: fmt.Sprintf("the body is longer than %d bytes", most),
		mend: "send less at once",
	}
}

func isJSON(given string) error {
	media, _, err := mime.ParseMediaType(given)
	if err == nil && media == jsonType {
		return nil
	}
	return &fault{
		status: http.StatusUnsupportedMediaType, kind: "unsupported-media-type",
		what: fmt.Sprintf("the body comes as %s", quoted(given)), mend: "send JSON with Content-Type: application/json",
	}
}

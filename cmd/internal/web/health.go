package web

import (
	"net/http"
	"time"

	"hotroom/advisor"
)

// Health says that the process answers.
type Health struct {
	Status string `json:"status"`
}

// Readiness says whether requests should be sent here, and what is answered
// from.
type Readiness struct {
	Status   string           `json:"status"` // ready, or stopping
	Versions advisor.Versions `json:"versions"`
	Since    string           `json:"since"` // RFC 3339: when that state was taken
	Reload   LastReload       `json:"reload"`
}

// LastReload says how the newest reading of the files ended. After a failed one
// the state before it still answers.
type LastReload struct {
	At       string   `json:"at"`      // RFC 3339
	Outcome  string   `json:"outcome"` // loaded, unchanged or failed
	Problems []string `json:"problems"`
}

func (s *Server) readiness(v *visit) (int, any) {
	last := s.store.last.Load()
	r := Readiness{
		Status: "ready", Versions: v.state.versions, Since: v.state.since.UTC().Format(time.RFC3339Nano),
		Reload: LastReload{At: last.at.UTC().Format(time.RFC3339Nano), Outcome: string(last.outcome), Problems: append([]string{}, last.problems...)},
	}
	if s.stopping.Load() {
		r.Status = "stopping"
		return http.StatusServiceUnavailable, r
	}
	return http.StatusOK, r
}

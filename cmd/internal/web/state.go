package web

import (
	"crypto/sha256"
	"encoding/hex"
	"time"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
)

// state is one good snapshot with what is made of it once. A request takes one
// and keeps to it.
type state struct {
	snapshot *advisor.Snapshot
	names    *sentence.Names
	versions advisor.Versions
	tag      string // what tells this state from others: its three versions and the build
	since    time.Time
}

func newState(s *advisor.Snapshot, program, build string, now time.Time) *state {
	v := advisor.Versions{Knowledge: s.Base().Hash, Rules: s.Book().Hash(), Program: program}
	return &state{
		snapshot: s, names: sentence.NewNames(s.Base()), versions: v, since: now,
		tag: digest([]byte(v.Knowledge), []byte(v.Rules), []byte(v.Program), []byte(build)),
	}
}

// etag is made of all that an answer depends on: the state's versions, the
// route and the question as it was understood. Two spellings of one question
// have the same.
func (s *state) etag(rt *route, understood []byte) string {
	return digest([]byte(s.tag), []byte(rt.name), understood)
}

// digest folds texts into 128 bits, written in hexadecimal.
func digest(texts ...[]byte) string {
	room := [1024]byte{}
	all := room[:0]
	for _, t := range texts {
		all = append(append(all, t...), 0)
	}
	sum := sha256.Sum256(all)
	return hex.EncodeToString(sum[:16])
}

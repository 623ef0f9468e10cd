package web

import (
	"net/http"

	"hotroom/advisor"
)

// table is every route there is, in the order of the description.
func (s *Server) table() []*route {
	all := []*route{
		brief(get("/v1/advice", "advice", "will this board feed this chip in this room", questionParams(), readQuestion, advise)),
		post[advisor.Question]("/v1/advice", "adviceOn", "the same, for one question or up to 1,000 in an array", readBatch, adviseAll),
		post[Sentence]("/v1/question", "question", "a question in a plain sentence", readSentence, answerSentence),
		get("/v1/ranking", "ranking", "every board that takes the chip, best first", rankingParams(), readRanking, rank),
		get("/v1/comparison", "comparison", "two to six boards side by side", comparisonParams(), readComparison, compare),
		get("/v1/sweep", "sweep", "one board over room temperatures or package powers", sweepParams(), readSweep, sweepOver),
		get("/v1/boards", "boards", "every board", nil, readNone, listOf(boards)),
		get("/v1/boards/:id", "board", "one board", nil, readID, oneBoard),
		get("/v1/chips", "chips", "every chip", nil, readNone, listOf(chips)),
		get("/v1/chips/:id", "chip", "one chip", nil, readID, oneChip),
		get(runsPath, "runs", "every measured run", nil, readNone, listOf(runs)),
		get("/v1/runs/:id", "run", "one measured run", nil, readID, oneRun),
		get("/v1/rules", "rules", "the rules that judge", nil, readNone, listOf(ruleList)),
		get("/v1/facts", "facts", "what rules can talk about", nil, readNone, listOf(factList)),
		get("/openapi.json", "description", "this description", nil, readNone, s.description),
		live[Health]("/healthz", "health", "the process answers", jsonType, func(*visit) (int, any) { return http.StatusOK, Health{"alive"} }),
		live[Readiness]("/readyz", "readiness", "the process takes requests, and what it answers from", jsonType, s.readiness),
		live[text]("/metrics", "metrics", "counts and times, for a collector", metricsType, s.metrics),
	}
	if s.options.records() {
		all = append(all, s.recording())
	}
	all = append(all, pages()...)
	for i, rt := range all {
		rt.index, rt.kind = i, []string{rt.media}
		if rt.life == nil {
			rt.life = fresh
		}
	}
	return all
}

package prompt

import (
	"slices"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/cmd/internal/command"
	"hotroom/knowledge"
	"hotroom/rules/facts"
)

// complete lists the words that may stand where the line ends, best first.
func (l *loop) complete(line string) []string {
	words := strings.Fields(line)
	typed := ""
	if len(words) > 0 && !strings.HasSuffix(line, " ") {
		typed = words[len(words)-1]
		words = words[:len(words)-1]
	}
	var fitting []string
	for _, c := range l.candidates(words, typed) {
		if hasPrefix(c, typed) && !slices.Contains(fitting, c) {
			fitting = append(fitting, c)
		}
	}
	return fitting
}

func hasPrefix(word, typed string) bool {
	return len(word) >= len(typed) && strings.EqualFold(word[:len(typed)], typed)
}

func (l *loop) candidates(words []string, typed string) []string {
	if len(words) == 0 {
		return append(firstWords(), l.sentenceWords(nil)...)
	}
	switch words[0] {
	case "set":
		if len(words) > 1 {
			return l.namesOf(words[1], l.s.Known)
		}
		return sentence.Settings()
	case "forget":
		return sentence.Settings()
	case "help":
		return firstWords()
	case "try":
		return factNames()
	case "why", "show", "undo", "quit":
		return nil
	}
	if v, ok := command.Find(words[0]); ok {
		return l.verbWords(v, words, typed)
	}
	return l.sentenceWords(words)
}

// factNames are what an expression can talk about.
func factNames() []string {
	var list []string
	for _, f := range facts.List() {
		list = append(list, f.Name)
	}
	return list
}

// firstWords are what a line may begin with besides a sentence.
func firstWords() []string {
	var list []string
	for _, v := range command.Verbs() {
		list = append(list, v.Name)
	}
	for _, w := range words() {
		list = append(list, w.name)
	}
	return list
}

// verbWords completes a verb's flags, their values, and a sentence.
func (l *loop) verbWords(v command.Verb, words []string, typed string) []string {
	if strings.HasPrefix(typed, "-") {
		var flags []string
		for _, f := range v.Flags() {
			flags = append(flags, "--"+f)
		}
		return flags
	}
	if flag, ok := strings.CutPrefix(words[len(words)-1], "--"); ok {
		return l.namesOf(v.FlagNames(flag), l.asked(words[1:]))
	}
	switch {
	case v.TakesSentence():
		return l.sentenceWords(words[1:])
	case v.TakesBoards():
		return l.otherBoards(words[1:])
	}
	return nil
}

// otherBoards are the boards that are not named yet; a chip among the flags
// narrows them.
func (l *loop) otherBoards(words []string) []string {
	with := l.s.Known
	if at := slices.Index(words, "--chip"); at >= 0 {
		with = l.asked(words[at+1 : min(at+2, len(words))])
	}
	return slices.DeleteFunc(l.namesOf("board", with), func(id string) bool { return slices.Contains(words, id) })
}

// sentenceWords are the names that the rest of a sentence can still use.
func (l *loop) sentenceWords(words []string) []string {
	with := l.asked(words)
	var list []string
	for _, kind := range []string{"board", "chip", "room", "enclosure", "cooler", "load", "setup"} {
		list = append(list, l.namesOf(kind, with)...)
	}
	return list
}

// asked reads what the line says so far, over what is remembered; a board in
// the line does away with the remembered chip, which may not fit.
func (l *loop) asked(words []string) advisor.Question {
	_, names, err := l.s.Snapshot()
	if err != nil {
		return l.s.Known
	}
	read := names.Read(strings.Join(words, " "), l.s.Known).Question
	known := l.s.Known
	if read.Board != "" || read.Chip != "" {
		known.Board, known.Chip = "", ""
	}
	question, _ := sentence.Over(read, known)
	return question
}

func (l *loop) namesOf(kind string, with advisor.Question) []string {
	return command.Completions(l.base(), kind, with)
}

func (l *loop) base() *knowledge.Base {
	snapshot, _, err := l.s.Snapshot()
	if err != nil {
		return &knowledge.Base{}
	}
	return snapshot.Base()
}

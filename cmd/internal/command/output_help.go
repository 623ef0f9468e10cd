package command

import (
	"strings"

	"github.com/clipperhouse/displaywidth"
	"github.com/spf13/pflag"

	"hotroom/advisor/sentence"
)

// PrintHelp prints a list of words with what they do.
func (s *Session) PrintHelp(rows [][2]string) error {
	return s.Print(s.style(s.OutTerminal, s.Plain).table(rows))
}

// PrintSettings prints the values of a question.
func (s *Session) PrintSettings(settings []sentence.Setting) error {
	rows := make([][2]string, len(settings))
	for i, v := range settings {
		rows[i] = [2]string{v.Name, safe(v.Value)}
	}
	return s.Print(s.style(s.OutTerminal, s.Plain).table(rows))
}

// PrintVerb prints how a verb is used; before is what is typed in front of it,
// "hotroom " on the command line.
func (s *Session) PrintVerb(v Verb, before string) error {
	flags := pflag.NewFlagSet(v.Name, pflag.ContinueOnError)
	v.Bind(flags)
	st := s.style(s.OutTerminal, s.Plain)
	text := before + strings.TrimSpace(v.Name+" "+v.Args) + ": " + v.Summary + "\n\n" + st.paragraph(v.Help, 0)
	if flags.HasFlags() {
		text += st.heading("Its flags") + flags.FlagUsagesWrapped(st.width)
	}
	text += st.heading("Flags of every verb") + commonFlags().FlagUsagesWrapped(st.width)
	text += st.heading("To try") + strings.ReplaceAll(v.Example, "  hotroom ", "  "+before) + "\n"
	return s.Print(text)
}

func commonFlags() *pflag.FlagSet {
	flags := pflag.NewFlagSet("common", pflag.ContinueOnError)
	new(Options).bind(flags)
	return flags
}

// exitCodes is the help's table of them.
func exitCodes() [][2]string {
	return [][2]string{
		{"0", "answered, whatever the verdict"},
		{"1", "could not answer: an unknown board, broken knowledge …"},
		{"2", "wrong usage, or a value that nothing could make right, such as a room of 400 °C"},
		{"3", "check found mistakes"},
		{"4", "the verdict is the one that --fail-on names, or worse: with-care, unknown, no"},
	}
}

// printRoot prints the help of the program as a whole.
func (s *Session) printRoot() error {
	st := s.style(s.OutTerminal, s.Plain)
	rows := [][2]string{{"(none)", "a prompt on a terminal; otherwise runs the lines that are piped in"}}
	for _, v := range Verbs() {
		rows = append(rows, [2]string{strings.TrimSpace(v.Name + " " + v.Args), v.Summary})
	}
	rows = append(rows,
		[2]string{"help VERB", "how a verb is used"},
		[2]string{"completion SHELL", "completion for bash, zsh, fish or powershell"})
	return s.Print("hotroom VERB: will this board's CPU power delivery handle this chip in this room?\n" +
		st.heading("Verbs") + st.table(rows) +
		st.heading("Flags of every verb") + commonFlags().FlagUsagesWrapped(st.width) +
		st.heading("Exit codes") + st.table(exitCodes()) +
		st.heading("To try") + askExample + "\n")
}

// table lays rows out in two columns.
func (st style) table(rows [][2]string) string {
	width := 0
	for _, r := range rows {
		width = max(width, displaywidth.String(r[0]))
	}
	var b strings.Builder
	for _, r := range rows {
		if st.plain {
			b.WriteString(r[0] + ": " + r[1] + "\n")
			continue
		}
		b.WriteString(st.hanging("  "+pad(r[0], width)+"  ", r[1], width+4))
	}
	return b.String()
}

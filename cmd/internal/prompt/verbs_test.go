package prompt

import (
	"context"
	"slices"
	"strings"
	"testing"
)

// The verbs take what is remembered, and leave it remembered.
func TestVerbsAtThePrompt(t *testing.T) {
	s, out, messages := session("set chip v10\nset room 33\n" +
		"rank --top 1 --plain\n" +
		"compare basalt gneiss --plain\n" +
		"sweep --board quarry --from 20 --to 30 --step 10 --plain\n" +
		"round --setup open --format csv\n" +
		"show\n")
	if code := newLoop(s, newPipe(s.In)).run(context.Background()); code != 0 {
		t.Errorf("exit code %d, %s", code, messages)
	}
	for _, want := range []string{
		"1. Gorsebank Gneiss, 239 EUR: yes; ",
		"Side by side with the Varnholt V10: 4.40 GHz wanted, room of 33 °C,",
		"At 30 °C: hot spot ",
		"\n2025-02-05-gneiss-v10,2025-02-05,Gorsebank Gneiss,239,EUR,",
		"  board  quarry\n  chip   v10\n  room   33 °C\n",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("nowhere %q in\n%s", want, out)
		}
	}
}

func TestVerbsComplete(t *testing.T) {
	for _, tt := range []struct {
		line     string
		has, not []string
	}{
		{"compare ", []string{"slate", "marl"}, []string{"v10", "hot"}},
		{"compare slate b", []string{"basalt", "brook"}, []string{"slate"}},
		{"compare slate ", []string{"basalt"}, []string{"slate"}},
		{"compare --chip q12 ", []string{"marl", "fen"}, []string{"slate"}},
		{"compare slate --room ", []string{"hot"}, []string{"basalt"}},
		{"rank ", []string{"v10", "hot"}, nil},
		{"rank --chip ", []string{"v10", "q8"}, []string{"hot"}},
		{"rank --b", []string{"--budget"}, []string{"--board"}},
		{"sweep --over ", []string{"room", "power"}, []string{"slate"}},
		{"round --format m", []string{"markdown"}, nil},
		{"back", []string{"backtest"}, nil},
	} {
		s, _, _ := session("")
		got := newLoop(s, nil).complete(tt.line)
		for _, word := range tt.has {
			if !slices.Contains(got, word) {
				t.Errorf("%q: no %q in %q", tt.line, word, got)
			}
		}
		for _, word := range tt.not {
			if slices.Contains(got, word) {
				t.Errorf("%q: %q in %q", tt.line, word, got)
			}
		}
	}
}

package command

import "testing"

func TestStyle(t *testing.T) {
	for _, tt := range []struct {
		name            string
		terminal, plain bool
		env             map[string]string
		columns         int
		want            style
	}{
		{"a terminal", true, false, nil, 132, style{width: 80, colour: true}},
		{"a narrow terminal", true, false, nil, 60, style{width: 60, colour: true}},
		{"a very narrow terminal", true, false, nil, 12, style{width: 40, colour: true}},
		{"a pipe", false, false, nil, 0, style{width: 80}},
		{"NO_COLOR", true, false, map[string]string{"NO_COLOR": "1"}, 80, style{width: 80}},
		{"NO_COLOR empty", true, false, map[string]string{"NO_COLOR": ""}, 80, style{width: 80, colour: true}},
		{"TERM=dumb", true, false, map[string]string{"TERM": "dumb"}, 80, style{width: 80}},
		{"--plain", true, true, nil, 80, style{width: 80, plain: true}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := Streams{
				Width:  func() int { return tt.columns },
				Getenv: func(name string) string { return tt.env[name] },
			}
			if got := s.style(tt.terminal, tt.plain); got != tt.want {
				t.Errorf("got %+v, want %+v", got, tt.want)
			}
		})
	}
}

func TestFailOn(t *testing.T) {
	for _, tt := range []struct {
		on, verdict string
		want        bool
	}{
		{"", "no", false},
		{"no", "no", true},
		{"no", "unknown", false},
		{"unknown", "no", true},
		{"unknown", "with-care", false},
		{"with-care", "with-care", true},
		{"with-care", "unknown", true},
		{"with-care", "no", true},
		{"with-care", "yes", false},
	} {
		s := &Session{Options: Options{FailOn: tt.on}}
		if got := s.failed(tt.verdict); got != tt.want {
			t.Errorf("--fail-on %q with %q: %v, want %v", tt.on, tt.verdict, got, tt.want)
		}
	}
}

package command

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

func TestServeRefuses(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	at := taken.Addr().String()
	for _, tt := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"here"}, exitUsage, "hotroom: serve takes no arguments: name the address with --listen"},
		{[]string{"--log", "all"}, exitUsage, `hotroom: --log "all" is not known: give requests, events, errors`},
		{[]string{"--rate", "-1"}, exitUsage, "hotroom: --rate -1 is not possible: give requests a second, or 0 for no limit"},
		{[]string{"--rate", "NaN"}, exitUsage, "hotroom: --rate NaN is not possible: give requests a second, or 0 for no limit"},
		{[]string{"--burst", "-1"}, exitUsage, "hotroom: --burst -1 is not possible: give 1 or more"},
		{[]string{"--cache-mb", "0"}, exitUsage, "hotroom: --cache-mb 0 is not possible: give 1 or more"},
		{[]string{"--drain", "-1s"}, exitUsage, "hotroom: --drain -1s is not possible: give a time such as 3s"},
		{[]string{"--cors-origin", "guide.example"}, exitUsage, `hotroom: --cors-origin "guide.example" is no web origin: write it as https://guide.example, or *`},
		{[]string{"--frame-ancestors", "https://a;x"}, exitUsage, `hotroom: --frame-ancestors "https://a;x" is no web origin: write it as https://guide.example, or *`},
		{[]string{"--knowledge", "here", "--token-file", "nowhere/token"}, exitFailed, "hotroom: the token file nowhere/token cannot be read (no such file or directory): give a file whose first line is the token"},
		{[]string{"--listen", at}, exitFailed, "hotroom: nothing can listen on " + at + " (listen tcp " + at + ": bind: address already in use): choose another address with --listen, or port 0 for a free one"},
	} {
		var messages bytes.Buffer
		s := quiet()
		s.Err = &messages
		code := Main(t.Context(), append([]string{"serve", "--plain"}, tt.args...), s, nil)
		if got := strings.TrimSpace(messages.String()); code != tt.code || got != tt.want {
			t.Errorf("%v: exit code %d, want %d\ngot  %s\nwant %s", tt.args, code, tt.code, got, tt.want)
		}
	}
}

// messages may be read while they are written.
type messages struct {
	mu   sync.Mutex
	text strings.Builder
}

func (m *messages) Write(p []byte) (int, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.text.Write(p)
}

func (m *messages) String() string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.text.String()
}

// serve says where it listens, answers there as ask does, reads its files again
// when it is told to, and ends well when it is told to stop.
func TestServe(t *testing.T) {
	var said messages
	s := quiet()
	s.Err = &said
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan int, 1)
	go func() {
		ended <- Main(ctx, []string{"serve", "--listen", "127.0.0.1:0", "--drain", "0s", "--log", "events"}, s, nil)
	}()
	defer stop()
	says := func(pattern string) string {
		t.Helper()
		for range 1000 {
			if m := regexp.MustCompile(pattern).FindStringSubmatch(said.String()); m != nil {
				return m[len(m)-1]
			}
			time.Sleep(10 * time.Millisecond)
		}
		t.Fatalf("it never says %s:\n%s", pattern, said.String())
		return ""
	}
	home := says(`hotroom serves (http://127\.0\.0\.1:\d+)\n`)
	r, err := http.Get(home + "/v1/advice?board=slate&chip=v10&room=32")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	got, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	var printed, served bytes.Buffer
	line := quiet()
	line.Out = &printed
	if code := Main(t.Context(), []string{"ask", "--json", "--board", "slate", "--chip", "v10", "--room", "32"}, line, nil); code != exitAnswered {
		t.Fatal(code)
	}
	if err := json.Indent(&served, got, "", "  "); err != nil {
		t.Fatal(err)
	}
	// The two writers differ in which characters they escape.
	if unescaped := strings.NewReplacer(`\u0026`, "&", `\u003c`, "<", `\u003e`, ">").Replace(served.String()); unescaped != printed.String() {
		t.Errorf("served\n%s\nprinted\n%s", unescaped, printed.String())
	}
	says(`"msg":"reload"(.*)\n`)
	before := strings.Count(said.String(), `"msg":"reload"`)
	self, err := os.FindProcess(os.Getpid())
	if err != nil {
		t.Fatal(err)
	}
	if err := self.Signal(syscall.SIGHUP); err != nil {
		t.Skip("SKIPPED, NOT CHECKED: this system cannot send SIGHUP, which asks for a reload: ", err)
	}
	for range 1000 {
		if strings.Count(said.String(), `"msg":"reload"`) > before {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	stop()
	if code := <-ended; code != exitAnswered {
		t.Errorf("exit code %d", code)
	}
	if after := said.String(); strings.Count(after, `"msg":"reload"`) == before || !strings.Contains(after, `"msg":"stopped"`) {
		t.Errorf("it says\n%s", after)
	}
}

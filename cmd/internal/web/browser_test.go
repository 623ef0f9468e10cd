package web

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	devtools "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"hotroom/advisor"
	"hotroom/cmd/internal/publish"
)

// lacks skips a test whose tool is not there, and fails it where everything
// must be there.
func lacks(t *testing.T, what, mend string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed: %s", what, mend)
	}
	t.Skipf("SKIPPED: %s is not installed: %s", what, mend)
}

// browser starts Debian's Chromium.
func browser(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		lacks(t, "chromium", "apt-get install chromium")
	}
	options := []chromedp.ExecAllocatorOption{chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir())}
	for _, flag := range []string{
		"headless", "no-sandbox", "disable-gpu", "disable-quic", "no-first-run", "disable-background-networking", "disable-component-update",
		"disable-sync", "disable-dev-shm-usage", "hide-scrollbars",
	} {
		options = append(options, chromedp.Flag(flag, true))
	}
	ctx, cancel := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// online serves the demo on a port of its own.
func online(t *testing.T, o Options) string {
	t.Helper()
	h := httptest.NewServer(server(t, o))
	t.Cleanup(h.Close)
	return h.URL
}

// do runs steps within a time.
func do(t *testing.T, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	ctx, cancel := context.WithTimeout(ctx, 60*time.Second)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

func read[T any](t *testing.T, ctx context.Context, a chromedp.Action[T]) T {
	t.Helper()
	ctx, cancel := context.WithTimeout(ctx, 60*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, a)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// media makes a page look as on paper, or in the dark.
func media(kind, scheme string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Media: kind, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		})
		return err
	})
}

// photograph keeps a picture of the page where HOTROOM_SCREENSHOTS says so, for
// people to look at.
func photograph(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	dir := os.Getenv("HOTROOM_SCREENSHOTS")
	if dir == "" {
		return
	}
	picture := read(t, ctx, chromedp.FullScreenshot(100))
	if err := os.WriteFile(filepath.Join(dir, name+".png"), picture, 0o600); err != nil {
		t.Fatal(err)
	}
}

// shownPages are pages of every kind.
var shownPages = map[string]string{
	"start":   "/",
	"answer":  "/?q=will+the+brook+carry+the+v10+in+an+attic",
	"no":      "/?board=slate&chip=v10&room=hot&power=150",
	"refused": "/?board=slatte&chip=q16",
	"ranking": "/ranking?chip=v10&room=warm",
	"compare": "/compare?board=brook&board=kiln&board=anvil&chip=v10",
	"sweep":   "/sweep?board=brook&chip=v10",
	"card":    "/card?board=brook&chip=v10&room=38",
}

// axe is the accessibility engine's source.
func axe(t *testing.T) string {
	t.Helper()
	path := os.Getenv("AXE_CORE")
	if path == "" {
		if root, err := exec.Command("npm", "root", "-g").Output(); err == nil {
			path = filepath.Join(strings.TrimSpace(string(root)), "axe-core", "axe.min.js")
		}
	}
	source, err := os.ReadFile(path)
	if err != nil {
		lacks(t, "axe-core", "npm install -g axe-core, or name its axe.min.js in AXE_CORE")
	}
	return string(source)
}

// violation is one thing that the engine found.
type violation struct {
	ID     string `json:"id"`
	Impact string `json:"impact"`
	Help   string `json:"help"`
	Nodes  []struct {
		HTML    string `json:"html"`
		Summary string `json:"failureSummary"`
	} `json:"nodes"`
}

func TestNothingSeriousInAnyPage(t *testing.T) {
	source, ctx := axe(t), browser(t)
	pages := map[string]string{}
	url, guide := online(t, Options{}), published(t)
	for name, target := range shownPages {
		pages[name] = url + target
	}
	for name, target := range map[string]string{"guide": "/", "guide-board": "/boards/brook.html", "guide-card": "/cards/brook/v10/attic.html"} {
		pages[name] = guide + target
	}
	for _, width := range []int64{1200, 320} {
		for _, scheme := range []string{"light", "dark"} {
			for name, target := range pages {
				at := fmt.Sprintf("%s-%s-%d", name, scheme, width)
				do(t, ctx, chromedp.EmulateViewport(width, 900), media("screen", scheme), chromedp.Navigate(target))
				engine(t, ctx, source, at)
				if wide := read(t, ctx, chromedp.Evaluate[int64](`document.documentElement.scrollWidth`)); wide > width {
					t.Errorf("%s is %d px wide", at, wide)
				}
				if face := read(t, ctx, chromedp.Evaluate[string](`getComputedStyle(document.body).fontFamily`)); !strings.Contains(face, "system-ui") {
					t.Errorf("%s has no style: its letters are %s; %s", at, face, styleOf(t, ctx))
				}
				photograph(t, ctx, at)
			}
		}
	}
}

// styleOf says what comes of asking for a page's style sheet again.
func styleOf(t *testing.T, ctx context.Context) string {
	return read(t, ctx, chromedp.Evaluate[string](`(async () => {
		const link = document.querySelector("link[rel=stylesheet]");
		if (!link) return "it names none";
		const response = await fetch(link.href, {cache: "reload"});
		return link.href + " " + response.status + " " + [...response.headers].join("; ") + " " + (await response.text()).length;
	})().catch(String)`, chromedp.EvalAwaitPromise))
}

// engine runs the accessibility engine with everything folded out.
func engine(t *testing.T, ctx context.Context, source, at string) {
	t.Helper()
	open := chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("details").forEach(d => d.open = true)`)
	do(t, ctx, open, chromedp.Evaluate[chromedp.Void](source+";0"))
	for _, v := range read(t, ctx, chromedp.Evaluate[[]violation](`axe.run().then(r => r.violations)`, chromedp.EvalAwaitPromise)) {
		report := t.Errorf
		if v.Impact == "minor" || v.Impact == "moderate" {
			report = t.Logf
		}
		report("%s: %s, %s: %s\n%+v", at, v.Impact, v.ID, v.Help, v.Nodes)
	}
}

// published serves a published guide as a plain web server does.
func published(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if _, err := publish.Guide(t.Context(), demo(t, advisor.Source{}), dir, publish.Options{Rooms: []string{"normal", "attic"}}); err != nil {
		t.Fatal(err)
	}
	h := httptest.NewServer(http.FileServer(http.Dir(dir)))
	t.Cleanup(h.Close)
	return h.URL
}

// Everything that a page loads is its own.
func TestPagesLoadOnlyTheirOwn(t *testing.T) {
	ctx, url := browser(t), online(t, Options{})
	for name, target := range shownPages {
		do(t, ctx, chromedp.Navigate(url+target))
		loaded := read(t, ctx, chromedp.Evaluate[[]string](`performance.getEntriesByType("resource").map(e => e.name)`))
		for _, from := range loaded {
			if !strings.HasPrefix(from, url+"/") {
				t.Errorf("%s loads %s", name, from)
			}
		}
	}
}

// A question asked without scripts, by the keyboard alone.
func TestWithoutScriptsByKeyboard(t *testing.T) {
	ctx, url := browser(t), online(t, Options{})
	off := chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	})
	do(t, ctx, off, chromedp.Navigate(url+"/"))
	tabs := func(n int) (steps []chromedp.Action[chromedp.Void]) {
		for range n {
			steps = append(steps, chromedp.KeyEvent(kb.Tab))
		}
		return steps
	}
	do(t, ctx, tabs(7)...) // past the skip link, the name and the four kinds of page
	do(t, ctx, chromedp.KeyEvent("will the brook carry the v10 at 38"), chromedp.KeyEvent(kb.Enter), chromedp.WaitReady(chromedp.CSS("article.with-care")))
	html := read(t, ctx, chromedp.OuterHTML(chromedp.CSS("article h1")))
	if !strings.Contains(html, "With care") {
		t.Errorf("the answer begins %s", html)
	}
	if !strings.Contains(read(t, ctx, chromedp.OuterHTML(chromedp.CSS("#f-chip"))), `<option value="v10" data-socket="VH3" selected`) {
		t.Error("the pickers do not show the chip that was asked for")
	}
	photograph(t, ctx, "without-scripts")
}

// Each thing that the keyboard reaches is seen to be reached, in the order of
// the page.
func TestTheKeyboardIsSeen(t *testing.T) {
	ctx, url := browser(t), online(t, Options{})
	do(t, ctx, chromedp.EmulateViewport(1200, 900), chromedp.Navigate(url+shownPages["answer"]))
	top := -1.0
	for i := range 12 {
		do(t, ctx, chromedp.KeyEvent(kb.Tab))
		at := read(t, ctx, chromedp.Evaluate[struct {
			Name, Style string
			Top         float64
		}](`(() => { const e = document.activeElement, s = getComputedStyle(e), b = e.getBoundingClientRect();
			return {Name: e.tagName + " " + e.textContent.slice(0, 30), Style: s.outlineStyle, Top: b.bottom + scrollY} })()`))
		if at.Style != "solid" {
			t.Errorf("stop %d, %s, shows no focus: its outline is %s", i, at.Name, at.Style)
		}
		if at.Top < top-30 {
			t.Errorf("stop %d, %s, jumps back up", i, at.Name)
		}
		top = at.Top
	}
}

// With scripts a board's chips are listed at once, and addresses stay short.
func TestScriptsHelp(t *testing.T) {
	ctx, url := browser(t), online(t, Options{})
	do(t, ctx, chromedp.Navigate(url+"/"), chromedp.Evaluate[chromedp.Void](`const b = document.getElementById("f-board"); b.value = "brook"; b.dispatchEvent(new Event("change"));0`))
	sockets := read(t, ctx, chromedp.Evaluate[[]string](`[...new Set([...document.querySelectorAll("#f-chip option[data-socket]")].map(o => o.dataset.socket).filter(s => s))]`))
	if len(sockets) != 1 || sockets[0] != "VH3" {
		t.Errorf("the Brook is offered chips of the sockets %v", sockets)
	}
	do(t, ctx, chromedp.Evaluate[chromedp.Void](`document.getElementById("f-chip").value = "v10"; document.querySelector("form.pick button").click();0`), chromedp.WaitReady(chromedp.CSS("article")))
	if at := read(t, ctx, chromedp.Location()); at != url+"/?board=brook&chip=v10" {
		t.Errorf("the answer stands at %s", at)
	}
	if snippet := read(t, ctx, chromedp.TextContent(chromedp.CSS(".snippet"))); !strings.Contains(snippet, `src="`+url+`/card?board=brook&amp;chip=v10"`) {
		t.Errorf("the snippet reads %s", snippet)
	}
}

// On paper there are no forms, and nothing is hidden.
func TestPrint(t *testing.T) {
	ctx, url := browser(t), online(t, Options{})
	do(t, ctx, chromedp.EmulateViewport(794, 1123), chromedp.Navigate(url+shownPages["answer"]), media("print", "dark"))
	for selector, want := range map[string]bool{"form.pick": false, "form.sentence": false, "article h1": true, "details ul": true} {
		seen := read(t, ctx, chromedp.Evaluate[bool](fmt.Sprintf(`document.querySelector(%q).getClientRects().length > 0`, selector)))
		if seen != want {
			t.Errorf("on paper %s is shown: %v, want %v", selector, seen, want)
		}
	}
	if ground := read(t, ctx, chromedp.Evaluate[string](`getComputedStyle(document.querySelector("h1")).color`)); ground != "rgb(28, 34, 40)" {
		t.Errorf("in the dark the letters on paper are %s", ground)
	}
	photograph(t, ctx, "print")
	if pdf := read(t, ctx, chromedp.PrintToPDF()); len(pdf) < 10_000 {
		t.Errorf("the print has %d bytes", len(pdf))
	}
}

// A guide on another origin frames the card where it may, and not elsewhere.
func TestTheCardInAnotherSite(t *testing.T) {
	guide := httptest.NewUnstartedServer(nil)
	guide.Start()
	t.Cleanup(guide.Close)
	ctx := browser(t)
	for name, frames := range map[string][]string{"allowed": {guide.URL}, "not allowed": nil} {
		url := online(t, Options{Frames: frames})
		guide.Config.Handler = http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", "text/html")
			fmt.Fprintf(w, `<!doctype html><title>Guide</title><p>A guide.</p><iframe title="card" width="420" height="420" src="%s/card?board=brook&amp;chip=v10&amp;room=38"></iframe>`, url)
		})
		do(t, ctx, chromedp.EmulateViewport(500, 520), chromedp.Navigate(guide.URL))
		framed := read(t, ctx, func(ctx context.Context, target *chromedp.Target) (string, error) {
			tree, err := cdp.Call(ctx, target, devtools.GetFrameTree, cdp.Empty{})
			if err != nil || len(tree.FrameTree.ChildFrames) != 1 {
				return "", err
			}
			return tree.FrameTree.ChildFrames[0].Frame.URL, nil
		})
		if got, want := strings.HasPrefix(framed, url+"/card"), frames != nil; got != want {
			t.Errorf("%s: the frame holds %s", name, framed)
		}
		photograph(t, ctx, "framed-"+strings.ReplaceAll(name, " ", "-"))
	}
}

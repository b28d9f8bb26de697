package main

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"build.example/turflast/testdata"
)

// browser is a browser without a window, spoken to in the protocol of its own tools over two
// pipes: one object of JSON after another, each ended by a zero byte.
type browser struct {
	t       *testing.T
	in      *os.File
	out     *bufio.Reader
	id      int
	session string
	events  []event
}

// event is what the browser says of itself.
type event struct {
	ID     int             `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error"`
}

// openBrowser starts the browser of this machine; the test is left out where there is none.
func openBrowser(t *testing.T) *browser {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" {
		t.Skip("no browser is here: pages aren't opened in one; .ci/run installs chromium where it can")
	}
	theirsIn, in, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	out, theirsOut, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(path, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--hide-scrollbars",
		"--user-data-dir="+t.TempDir(), "--remote-debugging-pipe", "about:blank")
	c.ExtraFiles = []*os.File{theirsIn, theirsOut} // 3 and 4, where it reads and writes
	if err := c.Start(); err != nil {
		t.Skipf("the browser doesn't start: %v", err)
	}
	theirsIn.Close()
	theirsOut.Close()
	b := &browser{t: t, in: in, out: bufio.NewReader(out)}
	t.Cleanup(func() {
		b.session = ""
		b.call("Browser.close", nil)
		in.Close()
		_ = c.Wait()
		out.Close()
	})
	_ = out.SetReadDeadline(time.Now().Add(5 * time.Minute)) // it may hang, the test may not
	target := struct{ TargetID string }{}
	b.into(&target, "Target.createTarget", map[string]any{"url": "about:blank"})
	attached := struct{ SessionID string }{}
	b.into(&attached, "Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true})
	b.session = attached.SessionID
	for _, domain := range []string{"Page", "Runtime", "Log", "Network", "Accessibility"} {
		b.call(domain+".enable", nil)
	}
	return b
}

// call asks the browser for something and returns what it answers. Events meanwhile are kept.
func (b *browser) call(method string, params map[string]any) json.RawMessage {
	b.t.Helper()
	b.id++
	message := map[string]any{"id": b.id, "method": method}
	if params != nil {
		message["params"] = params
	}
	if b.session != "" {
		message["sessionId"] = b.session
	}
	text, err := json.Marshal(message)
	if err == nil {
		_, err = b.in.Write(append(text, 0))
	}
	if err != nil {
		b.t.Fatalf("%s: %v", method, err)
	}
	for {
		switch e := b.next(); {
		case e.ID == b.id && e.Error != nil:
			b.t.Fatalf("%s: %s", method, e.Error.Message)
		case e.ID == b.id:
			return e.Result
		}
	}
}

func (b *browser) into(v any, method string, params map[string]any) {
	b.t.Helper()
	if err := json.Unmarshal(b.call(method, params), v); err != nil {
		b.t.Fatalf("%s: %v", method, err)
	}
}

// next reads the next message and keeps it if it is an event.
func (b *browser) next() event {
	b.t.Helper()
	text, err := b.out.ReadBytes(0)
	if err != nil {
		b.t.Fatalf("the browser says no more: %v", err)
	}
	var e event
	if err := json.Unmarshal(text[:len(text)-1], &e); err != nil {
		b.t.Fatal(err)
	}
	if e.Method != "" {
		b.events = append(b.events, e)
	}
	return e
}

// open opens a file in a window of a size.
func (b *browser) open(path string, width, height int) {
	b.t.Helper()
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{
		"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600})
	b.events = nil
	b.call("Page.navigate", map[string]any{"url": "file://" + path})
	for !b.happened("Page.loadEventFired") {
		b.next()
	}
}

func (b *browser) happened(method string) bool {
	for _, e := range b.events {
		if e.Method == method {
			return true
		}
	}
	return false
}

// faults lists what the browser complains of, and what it asked for besides the page.
func (b *browser) faults() (out []string) {
	for _, e := range b.events {
		switch text := string(e.Params); e.Method {
		case "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded":
			out = append(out, text)
		case "Network.requestWillBeSent":
			var p struct{ Request struct{ URL string } }
			_ = json.Unmarshal(e.Params, &p)
			if !strings.HasPrefix(p.Request.URL, "file://") && !strings.HasPrefix(p.Request.URL, "data:") {
				out = append(out, "asks for "+p.Request.URL)
			}
		}
	}
	return out
}

// ask evaluates an expression in the page.
func (b *browser) ask(v any, expression string) {
	b.t.Helper()
	var answer struct {
		Result struct{ Value json.RawMessage }
	}
	b.into(&answer, "Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true})
	if err := json.Unmarshal(answer.Result.Value, v); err != nil {
		b.t.Fatalf("%s: %v", expression, err)
	}
}

// unnamed lists what has to have a name for those who hear the page, and has none.
func (b *browser) unnamed() (out []string) {
	var tree struct {
		Nodes []struct {
			Ignored    bool
			Role, Name struct{ Value any }
		}
	}
	b.into(&tree, "Accessibility.getFullAXTree", nil)
	for _, n := range tree.Nodes {
		switch n.Role.Value {
		case "image", "table", "region", "link", "heading", "navigation", "RootWebArea":
			if name, _ := n.Name.Value.(string); !n.Ignored && strings.TrimSpace(name) == "" {
				out = append(out, fmt.Sprint(n.Role.Value))
			}
		}
	}
	return out
}

var pageObject = regexp.MustCompile(`/Type\s*/Page[^s]`)

// printed counts the pages of paper that a page takes.
func (b *browser) printed() int {
	var pdf struct{ Data string }
	b.into(&pdf, "Page.printToPDF", map[string]any{"preferCSSPageSize": true})
	data, err := base64.StdEncoding.DecodeString(pdf.Data)
	if err != nil {
		b.t.Fatal(err)
	}
	return len(pageObject.FindAll(data, -1))
}

// Opened in a browser, no page complains of anything or asks for anything, all that is to have
// a name has one, headings go down level by level, nothing is wider than a phone, and each
// takes as many pages of paper as it has to.
func TestPagesInABrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("a browser takes seconds")
	}
	b, folder := openBrowser(t), t.TempDir()
	plan := filepath.Join(folder, "plan.yaml")
	if err := os.WriteFile(plan, []byte(testdata.Demo), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	args := []string{"paper", "all", folder, "--slips", "--plan", plan}
	if code := run(args, strings.NewReader(""), &stdout, &stderr, outside()); code != 0 {
		t.Fatal(stderr.String())
	}
	files, err := filepath.Glob(filepath.Join(folder, "*.html"))
	if err != nil || len(files) < 12 {
		t.Fatalf("%d pages: %v", len(files), err)
	}
	for _, path := range files {
		b.page(t, path)
	}
	for name, want := range map[string][2]int{ // the least and the most
		"wall": {2, 2}, "client": {1, 1}, "orders": {1, 3}, "day-2027-05-04": {5, 14},
	} {
		b.open(filepath.Join(folder, name+".html"), 1280, 900)
		if n := b.printed(); n < want[0] || n > want[1] {
			t.Errorf("%s is printed on %d pages, not on %d to %d", name, n, want[0], want[1])
		}
	}
}

// page checks one page as a phone and as a desk shows it.
func (b *browser) page(t *testing.T, path string) {
	name := filepath.Base(path)
	for _, width := range []int{390, 1280} {
		b.open(path, width, 800)
		wide := 0
		b.ask(&wide, "document.documentElement.scrollWidth")
		if wide > width {
			t.Errorf("%s is %d wide where there are %d", name, wide, width)
		}
		for _, fault := range b.faults() {
			t.Errorf("%s: %s", name, fault)
		}
	}
	for _, role := range b.unnamed() {
		t.Errorf("%s: a %s without a name", name, role)
	}
	var levels []int
	b.ask(&levels, "[...document.querySelectorAll('h1,h2,h3,h4')].map(h => +h.tagName[1])")
	last := 0
	for i, level := range levels {
		if level > last+1 || (level == 1) != (i == 0) {
			t.Errorf("%s: headings go %v", name, levels)
			break
		}
		last = level
	}
}

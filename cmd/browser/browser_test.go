// Package browser tries the local page in a real browser. It is a module of its own, so that nobody else fetches the browser's library;
// it builds the program and talks to it as a person does.
package browser

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

var look = flag.String("look", "", "write pictures of the pages to this folder, to be looked at")

// program is the built program.
var program string

func TestMain(m *testing.M) {
	flag.Parse()
	dir, err := os.MkdirTemp("", "crossgrain-browser-*")
	if err == nil {
		program = filepath.Join(dir, "crossgrain")
		build := exec.Command("go", "build", "-o", program, "./cmd/crossgrain")
		build.Dir, build.Stderr = filepath.Join("..", ".."), os.Stderr
		err = build.Run()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	code := m.Run()
	os.RemoveAll(dir)
	os.Exit(code)
}

// served is a running page.
type served struct {
	url, dir string
	cmd      *exec.Cmd
}

// serve starts the page on a folder of its own.
func serve(t *testing.T) *served {
	t.Helper()
	s := &served{dir: t.TempDir()}
	s.cmd = exec.Command(program, "page", s.dir, "--no-open")
	out, err := s.cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, s.cmd.Start())
	t.Cleanup(func() {
		_ = s.cmd.Process.Signal(os.Interrupt)
		_ = s.cmd.Wait()
	})
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	s.url = strings.TrimSuffix(strings.TrimSpace(line), "/")
	return s
}

// tab opens a browser window of a width. What goes wrong in its script, what the policy of the page refuses and a request to anywhere
// else fail the test.
func tab(t *testing.T, width, height int, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	options := append(append([]chromedp.ExecAllocatorOption{}, chromedp.DefaultExecAllocatorOptions[:]...),
		chromedp.NoSandbox, chromedp.WindowSize(width, height), chromedp.Flag("disable-background-networking", true))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), append(options, more...)...)
	t.Cleanup(stop)
	ctx, stop := chromedp.NewContext(alloc)
	t.Cleanup(stop)
	require.NoError(t, chromedp.Listen(ctx, func(e any) {
		switch e := e.(type) {
		case *runtime.EventExceptionThrown:
			t.Errorf("the script failed: %s", e.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			if e.Entry.Level == log.EntryLevelError && !strings.Contains(e.Entry.Text, "Failed to load resource") {
				t.Errorf("the browser complains: %s", e.Entry.Text)
			}
		case *network.EventRequestWillBeSent:
			if u := e.Request.URL; !ours(u) {
				t.Errorf("the page asked somebody else: %s", u)
			}
		}
	}))
	return ctx
}

// ours says whether an address is that of the page, or needs no network.
func ours(url string) bool {
	for _, begin := range []string{"http://127.0.0.1:", "data:", "file:", "about:", "blob:"} {
		if strings.HasPrefix(url, begin) {
			return true
		}
	}
	return false
}

// patience is how long one step may take.
const patience = time.Minute

// do runs steps and shows the page where one fails.
func do(t *testing.T, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	for _, step := range steps {
		limited, stop := context.WithTimeout(ctx, patience)
		err := chromedp.Do(limited, step)
		stop()
		if err != nil {
			text, _ := chromedp.Run(ctx, chromedp.Evaluate[string]("document.body.innerText"))
			require.NoError(t, err, text)
		}
	}
}

// ask evaluates an expression in the page.
func ask[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	limited, stop := context.WithTimeout(ctx, patience)
	defer stop()
	v, err := chromedp.Run(limited, chromedp.Evaluate[T](expression))
	require.NoError(t, err, expression)
	return v
}

// until waits for an expression to hold.
func until(t *testing.T, ctx context.Context, expression string) {
	t.Helper()
	for end := time.Now().Add(patience); ; time.Sleep(50 * time.Millisecond) {
		if v, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+expression+")")); err == nil && v {
			return
		}
		if time.Now().After(end) {
			text, _ := chromedp.Run(ctx, chromedp.Evaluate[string]("document.body.innerText"))
			require.Fail(t, "waited in vain for "+expression, text)
		}
	}
}

// says waits until a part of the page says something.
func says(t *testing.T, ctx context.Context, css, words string) {
	t.Helper()
	until(t, ctx, fmt.Sprintf("(document.querySelector(%q)||{innerText:''}).innerText.includes(%q)", css, words))
}

// typed puts the cursor into a field, empties it and types.
func typed(css, text string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		for _, a := range []chromedp.Action[chromedp.Void]{chromedp.Clear(chromedp.CSS(css)), chromedp.SendKeys(chromedp.CSS(css), text)} {
			if _, err := a(ctx, tg); err != nil {
				return err
			}
		}
		return nil
	})
}

// click clicks on what a selector finds first.
func click(css string) chromedp.Action[chromedp.Void] { return chromedp.Click(chromedp.CSS(css)) }

// picture keeps a picture of the whole page where pictures are wanted.
func picture(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	if *look == "" {
		return
	}
	time.Sleep(300 * time.Millisecond) // frames and letters
	png, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(*look, 0o777))
	require.NoError(t, os.WriteFile(filepath.Join(*look, name+".png"), png, 0o644))
}

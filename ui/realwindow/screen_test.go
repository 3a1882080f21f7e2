//go:build realwindow

package realwindow

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"image"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// patience is how long a test waits for what must happen; reached only when
// it does not.
const patience = 90 * time.Second

// screen is a display of its own with the program on it.
type screen struct {
	t       *testing.T
	program string
	display string
	book    string
	said    string // the file of what the program says
}

// start makes the demo book, opens a display and the program on it.
func start(t *testing.T) *screen {
	t.Helper()
	s := demo(t)
	s.open()
	return s
}

// demo makes the demo book.
func demo(t *testing.T) *screen {
	t.Helper()
	program := os.Getenv("LUNGWORT")
	require.NotEmpty(t, program, "LUNGWORT must name the built program: run 'make test'")
	s := &screen{t: t, program: program, book: filepath.Join(t.TempDir(), "book.lungwort")}
	s.command("demo", "--book", s.book)
	return s
}

// open opens a display and the program on it.
func (s *screen) open() {
	s.t.Helper()
	s.openDisplay()
	s.background(s.program, "--book", s.book)
	s.until("the window opens", func() bool { return s.window() != "" && !s.blank() })
	s.xdotool("windowfocus", "--sync", s.window())
}

// openDisplay starts a virtual display and waits for its number.
func (s *screen) openDisplay() {
	s.t.Helper()
	read, write, err := os.Pipe()
	require.NoError(s.t, err)
	xvfb := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1366x768x24", "-nolisten", "tcp")
	xvfb.ExtraFiles = []*os.File{write}
	require.NoError(s.t, xvfb.Start(), "Xvfb must be installed: run 'make test'")
	s.t.Cleanup(func() { _ = xvfb.Process.Kill(); _ = xvfb.Wait() })
	require.NoError(s.t, write.Close())
	number, err := bufio.NewReader(read).ReadString('\n')
	require.NoError(s.t, err)
	s.display = ":" + strings.TrimSpace(number)
}

func (s *screen) env() []string {
	return append(os.Environ(), "DISPLAY="+s.display, "LANG=en_US.UTF-8", "XDG_CONFIG_HOME="+s.t.TempDir(), noon())
}

// noon puts the program where it is about noon now: the vehicles have hours
// before them, whenever the test runs.
func noon() string {
	return fmt.Sprintf("TZ=Etc/GMT%+d", int(west().Hours())) // these names count hours west
}

// west is how far west of Greenwich it is about noon now.
func west() time.Duration { return time.Duration(time.Now().UTC().Hour()-12) * time.Hour }

// background starts a program that runs until the test ends.
func (s *screen) background(name string, args ...string) {
	s.t.Helper()
	cmd := exec.Command(name, args...)
	s.said = filepath.Join(s.t.TempDir(), "said.txt")
	out, err := os.Create(s.said)
	require.NoError(s.t, err)
	cmd.Env, cmd.Stdout, cmd.Stderr = s.env(), out, out
	require.NoError(s.t, cmd.Start())
	s.t.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		_ = cmd.Wait()
		_ = out.Close()
		if s.t.Failed() {
			said, _ := os.ReadFile(s.said)
			s.t.Logf("%s said:\n%s", filepath.Base(name), said)
			s.keep("failed.png")
		}
	})
}

// command runs a command of the program and returns what it printed.
func (s *screen) command(args ...string) string {
	s.t.Helper()
	cmd := exec.Command(s.program, args...)
	cmd.Env = append(os.Environ(), "LANG=en_US.UTF-8", noon())
	out, err := cmd.Output()
	require.NoError(s.t, err, "lungwort %s", strings.Join(args, " "))
	return string(out)
}

func (s *screen) xdotool(args ...string) string {
	cmd := exec.Command("xdotool", args...)
	cmd.Env = s.env()
	out, _ := cmd.Output() // no window yet is no fault: the caller waits
	return strings.TrimSpace(string(out))
}

func (s *screen) window() string {
	id, _, _ := strings.Cut(s.xdotool("search", "--name", "^Lungwort$"), "\n")
	return id
}

// point is a place on the display.
type point struct{ x, y string }

// Where screens without a key of their own are chosen.
var (
	plant     = point{"72", "508"}
	recall    = point{"72", "533"}
	stocktake = point{"72", "559"}
	slipway   = point{"358", "132"} // a place to count
)

// Where buttons without a key of their own are.
var (
	vehicleOut = point{"919", "96"}
	planAnew   = point{"1176", "96"}
	lanes      = point{"540", "200"} // the timelines, beside their stops
	stopFailed = point{"1007", "170"}
)

// click clicks with the mouse.
func (s *screen) click(at point) {
	s.t.Helper()
	s.xdotool("mousemove", at.x, at.y, "click", "1")
}

// key presses keys by their names, as "ctrl+2" or "Tab".
func (s *screen) key(keys ...string) {
	s.t.Helper()
	s.xdotool(append([]string{"key", "--clearmodifiers", "--delay", "30"}, keys...)...)
}

// typed types text as a person does.
func (s *screen) typed(text string) { s.xdotool("type", "--delay", "15", text) }

// scan types as a scanner does: fast, with Enter at the end.
func (s *screen) scan(code string) {
	s.xdotool("type", "--delay", "4", code)
	s.key("Return")
}

// picture takes a picture of the whole display.
func (s *screen) picture() (image.Image, []byte) {
	cmd := exec.Command("import", "-window", "root", "png:-")
	cmd.Env = s.env()
	data, err := cmd.Output()
	if err != nil {
		return nil, nil
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, nil
	}
	return img, data
}

// blank reports whether the display still shows one colour.
func (s *screen) blank() bool {
	img, _ := s.picture()
	if img == nil {
		return true
	}
	first := img.At(10, 10)
	for x := 0; x < img.Bounds().Dx(); x += 7 {
		for y := 0; y < img.Bounds().Dy(); y += 7 {
			if img.At(x, y) != first {
				return false
			}
		}
	}
	return true
}

// settle waits until the picture stands still: what was asked for has been
// drawn. A blinking cursor, which touches a square or two, is not waited for.
func (s *screen) settle() {
	s.t.Helper()
	var last []int
	same := 0
	s.until("the picture stands still", func() bool {
		img, _ := s.picture()
		now := squares(img)
		if last != nil && changed(now, last) <= cursorSquares {
			same++
		} else {
			same = 0
		}
		last = now
		return same >= 3
	})
}

// cursorSquares is how many squares a blinking cursor can touch.
const cursorSquares = 4

// squares returns the brightness of a picture in squares of a letter's size.
func squares(img image.Image) []int {
	if img == nil {
		return nil
	}
	const side = 24
	var list []int
	for y := img.Bounds().Min.Y; y+side <= img.Bounds().Max.Y; y += side {
		for x := img.Bounds().Min.X; x+side <= img.Bounds().Max.X; x += side {
			sum := 0
			for dy := 0; dy < side; dy += 3 {
				for dx := 0; dx < side; dx += 3 {
					r, g, b, _ := img.At(x+dx, y+dy).RGBA()
					sum += int(r>>8 + g>>8 + b>>8)
				}
			}
			list = append(list, sum)
		}
	}
	return list
}

// changed counts the squares in which two pictures differ.
func changed(a, b []int) int {
	if len(a) != len(b) {
		return max(len(a), len(b))
	}
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// keep keeps a picture for a look when LUNGWORT_KEEP names a folder.
func (s *screen) keep(name string) {
	dir := os.Getenv("LUNGWORT_KEEP")
	if _, data := s.picture(); dir != "" && data != nil {
		require.NoError(s.t, os.WriteFile(filepath.Join(dir, name), data, 0o644))
	}
}

// until waits for something the program does by itself.
func (s *screen) until(what string, holds func() bool) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	for again := time.NewTicker(100 * time.Millisecond); ; {
		if holds() {
			again.Stop()
			return
		}
		select {
		case <-ctx.Done():
			s.keep("waiting.png")
			require.Fail(s.t, "waited in vain until "+what)
		case <-again.C:
		}
	}
}

// Package gallery draws every screen with the demo scenario, without a
// display. The same pictures are looked at while building, shown in the
// README, and drawn by "lungwort gallery".
package gallery

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/ui/look"
	"lungwort/ui/runner"
	"lungwort/ui/window"
	"lungwort/ui/work"
)

// now is the moment the pictures show: always the same, so that they change
// only when the program does.
var now = time.Date(2026, time.November, 24, 16, 20, 0, 0, time.FixedZone("", -3*3600))

// papers is the folder the pictures name; nothing is written there.
const papers = "papers"

// size is the smallest desk the window is made for.
var size = fyne.NewSize(1366, 768)

// Demo makes the demo book in a file, as of a moment.
type Demo func(ctx context.Context, path string, now time.Time) error

// Draw draws every screen, light and dark, into a folder.
func Draw(ctx context.Context, dir string, demo Demo) (err error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	scratch, err := os.MkdirTemp("", "gallery")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(scratch)) }()
	path := filepath.Join(scratch, "book.lungwort")
	if err := demo(ctx, path, now); err != nil {
		return err
	}
	clock := func() time.Time { return now }
	b, err := book.Open(ctx, path, book.Options{Now: clock, Sets: store.Migrations()})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	desk := store.NewDesk(b)
	shots, err := shotsOf(ctx, desk)
	if err != nil {
		return err
	}
	for _, shade := range []struct {
		name  string
		shade look.Shade
	}{{"light", look.Light}, {"dark", look.Dark}} {
		if err := drawAll(dir, shade.name, shade.shade, desk, shots); err != nil {
			return err
		}
	}
	return nil
}

func drawAll(dir, name string, shade look.Shade, desk *store.Desk, shots []shot) error {
	app := test.NewApp()
	defer app.Quit()
	app.Settings().SetTheme(look.New(shade))
	for _, s := range shots {
		w := test.NewWindow(nil)
		w.SetPadded(false)
		frame := window.NewFrame(&work.Work{
			Desk: desk, Run: runner.Inline{}, Now: func() time.Time { return now },
			By: "coordinator", Dir: papers, Show: func(string) {},
		}, func() fyne.Canvas { return w.Canvas() })
		w.SetContent(frame.Root())
		w.Resize(size)
		frame.Refresh()
		frame.Open(s.target)
		w.Content().Refresh()
		if err := save(filepath.Join(dir, fmt.Sprintf("%s-%s.png", s.name, name)), w); err != nil {
			return err
		}
		w.Close()
	}
	return nil
}

func save(path string, w fyne.Window) error {
	var buf bytes.Buffer
	if err := png.Encode(&buf, w.Canvas().Capture()); err != nil {
		return err
	}
	return os.WriteFile(path, buf.Bytes(), 0o644)
}

// shot is one picture.
type shot struct {
	name   string
	target work.Target
}

// shotsOf lists the pictures: every room of the side bar, a discharge under
// way, the page of the most urgent person, the visit planned there, and the
// page of that person's cylinder. The runs of the day are planned first.
func shotsOf(ctx context.Context, desk *store.Desk) ([]shot, error) {
	if _, err := desk.PlanDay(ctx, store.Hand{By: "coordinator", Source: inventory.Program, At: now}, searchSteps); err != nil {
		return nil, err
	}
	var shots []shot
	for i, r := range window.Rooms() {
		shots = append(shots, shot{fmt.Sprintf("%02d-%s", i+1, r), work.Target{Room: r}})
	}
	waiting, err := desk.Homes(ctx, "", 1000)
	if err != nil {
		return nil, err
	}
	for _, w := range waiting {
		if w.Care.Phase == delivery.Known && w.Care.Order != nil {
			shots = append(shots, shot{"31-bridge", work.Target{Room: work.Discharge, Person: w.Person.ID}})
			break
		}
	}
	rows, err := desk.Watch(ctx, now)
	if err != nil || len(rows) == 0 {
		return shots, err
	}
	first := rows[0]
	if first.Run != "" {
		shots = append(shots, shot{"34-visit", work.Target{Room: work.Visit, Run: first.Run, Person: first.Person.ID}})
	}
	shots = append(shots, shot{"36-night", work.Target{Room: work.Night, Person: first.Person.ID}})
	shots = append(shots, shot{"37-news", work.Target{Room: work.News}})
	shots = append(shots, shot{"35-alarm", work.Target{Room: work.Alarm, Person: first.Person.ID}})
	shots = append(shots, shot{"32-person", work.Target{Room: work.Person, Person: first.Person.ID}})
	for _, h := range first.Care.Kit {
		shots = append(shots, shot{"33-item", work.Target{Room: work.Item, Item: h.Item}})
		break
	}
	return shots, nil
}

// searchSteps is the budget of the route search: the same runs every time.
const searchSteps = 5_000

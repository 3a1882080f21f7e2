package window

import (
	"context"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/finder"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// Picture reads the codes in a picture and opens what they belong to: one by
// itself at once, several from a list.
func (f *Frame) Picture(win fyne.Window, path string) {
	f.notice.Say("Reading the picture …")
	var codes []finder.Code
	f.work.Run.Go("picture", func(ctx context.Context) (err error) {
		codes, err = finder.Picture(ctx, f.work.Desk, path, func(done, all int) {
			f.work.Run.Show(func() { f.notice.Say(fmt.Sprintf("Reading the picture, %d of %d parts …", done, all)) })
		})
		return err
	}, func(err error) {
		switch {
		case err != nil:
			f.refuse(err)
		case len(codes) == 0:
			f.refuse(refusal.New(refusal.NotFound, "No code was found in the picture.", "Come closer, hold it flat, give it light; or type the number under the code."))
		case len(codes) == 1:
			f.notice.Say("The picture says " + codes[0].Text + ".")
			f.submit(codes[0].Text)
		default:
			f.notice.Say(fmt.Sprintf("%d codes were found in the picture.", len(codes)))
			f.choose(win, codes)
		}
	})
}

// gathers are the screens that take any number of scans at once.
var gathers = map[work.Room]bool{work.Labels: true, work.Receive: true, work.Visit: true}

// choose shows the codes of a picture with what they belong to. On a screen that
// takes scans they can all be scanned there.
func (f *Frame) choose(win fyne.Window, codes []finder.Code) {
	rows := widgets.NewRows([]widgets.Column{{Title: "code", Width: 210}, {Title: "belongs to"}}, "")
	rows.SetRows(codeRows(codes))
	var shown *widgets.Dialog
	rows.OnOpen = func(id string) {
		for _, c := range codes {
			if c.Text == id && c.Known() {
				shown.Close()
				f.pick(hitID(c.Hit))
			}
		}
	}
	size := container.NewGridWrap(fyne.NewSize(620, 360), rows)
	body := container.NewVBox(size)
	if s, ok := f.rooms[f.here.Room].(scanning); ok && gathers[f.here.Room] {
		body.Add(widgets.NewButton("Scan them all here", func() {
			shown.Close()
			for _, c := range codes {
				s.Scan(c.Text)
			}
		}))
	} else {
		body.Add(widget.NewLabel("Enter opens what the code belongs to."))
	}
	shown = widgets.Tell(win, fmt.Sprintf("%d codes in the picture", len(codes)), body)
	win.Canvas().Focus(rows.Keyboard())
}

func codeRows(codes []finder.Code) []widgets.Row {
	rows := make([]widgets.Row, len(codes))
	for i, c := range codes {
		what := widgets.Cell{Text: "nothing in the book goes by this", Ink: scene.Faint}
		if c.Known() {
			what = widgets.Cell{Text: c.Hit.Title, Below: c.Hit.Detail, Bold: true}
		}
		rows[i] = widgets.Row{ID: c.Text, Find: c.Text, Cells: []widgets.Cell{{Text: c.Text}, what}}
	}
	return rows
}

// dropped reads a picture that was dropped on the window.
func (p *program) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) > 0 && p.frame != nil && p.window.Canvas().Overlays().Top() == nil {
		p.frame.Picture(p.window, files[0].Path())
	}
}

// askPicture lets the person choose a picture.
func (p *program) askPicture() {
	p.pickFile(p.window, func(path string) { p.frame.Picture(p.window, path) })
}

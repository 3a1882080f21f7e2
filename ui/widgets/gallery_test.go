package widgets_test

import (
	"errors"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"lungwort/labels/scene"
	"lungwort/ui/look"
	"lungwort/ui/widgets"
)

// show is one page of the gallery: what it holds and how large it is.
type show struct {
	size    fyne.Size
	content func() fyne.CanvasObject
	// then acts on the shown window, for states that need a focus or a key.
	then func(fyne.Window)
}

// TestGallery draws every widget. With LUNGWORT_GALLERY set to a folder it does
// so in light and dark and keeps the pictures there for a look.
func TestGallery(t *testing.T) {
	dir, shades := os.Getenv("LUNGWORT_GALLERY"), map[string]look.Shade{"light": look.Light}
	if dir != "" {
		shades["dark"] = look.Dark
		require.NoError(t, os.MkdirAll(dir, 0o755))
	}
	for name, page := range gallery {
		for label, shade := range shades {
			img := draw(t, shade, page)
			require.False(t, oneColour(img), "%s in %s is blank", name, label)
			if dir != "" {
				keep(t, img, filepath.Join(dir, name+"-"+label+".png"))
			}
		}
	}
}

func keep(t *testing.T, img image.Image, path string) {
	t.Helper()
	file, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, png.Encode(file, img))
	require.NoError(t, file.Close())
}

func draw(t *testing.T, shade look.Shade, page show) image.Image {
	t.Helper()
	app := test.NewApp()
	defer app.Quit()
	app.Settings().SetTheme(look.New(shade))
	win := test.NewWindow(page.content())
	defer win.Close()
	win.Resize(page.size)
	if page.then != nil {
		page.then(win)
	}
	return win.Canvas().Capture()
}

func oneColour(img image.Image) bool {
	first := img.At(img.Bounds().Min.X, img.Bounds().Min.Y)
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y += 3 {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x += 3 {
			if img.At(x, y) != first {
				return false
			}
		}
	}
	return true
}

var at = time.Date(2026, 11, 24, 16, 20, 0, 0, time.FixedZone("", -3*3600))

// ribbons are those of an afternoon: one of each verdict.
var ribbons = []scene.RibbonData{
	{Now: at, Horizon: 6 * time.Hour, Low: at.Add(50 * time.Minute), Mid: at.Add(70 * time.Minute), High: at.Add(97 * time.Minute), ActBy: at.Add(54 * time.Minute), Visits: []time.Time{at.Add(90 * time.Minute)}},
	{Now: at, Horizon: 6 * time.Hour, Unknown: true, Low: at.Add(10 * time.Minute), Mid: at.Add(3 * time.Hour), High: at.Add(330 * time.Minute), ActBy: at.Add(12 * time.Minute), Outages: []scene.Span{{To: at.Add(4 * time.Hour)}}},
	{Now: at, Horizon: 6 * time.Hour, Low: at.Add(150 * time.Minute), Mid: at.Add(180 * time.Minute), High: at.Add(220 * time.Minute), ActBy: at.Add(144 * time.Minute), Visits: []time.Time{at.Add(126 * time.Minute)}, Outages: []scene.Span{{To: at.Add(4 * time.Hour)}}},
	{Now: at, Horizon: 6 * time.Hour, Low: at.Add(4 * time.Hour), Mid: at.Add(270 * time.Minute), High: at.Add(300 * time.Minute), ActBy: at.Add(204 * time.Minute), Visits: []time.Time{at.Add(114 * time.Minute)}},
	{Now: at, Horizon: 6 * time.Hour, Hollow: true, CoverLow: 4 * time.Hour, CoverMid: 270 * time.Minute, CoverHigh: 300 * time.Minute},
	{Now: at, Horizon: 6 * time.Hour, Low: at.Add(-30 * time.Minute), Mid: at.Add(-20 * time.Minute), High: at.Add(-10 * time.Minute), ActBy: at.Add(-time.Hour)},
}

func ribbon(i int) widgets.Drawing {
	return func(w, h float64) scene.Scene { return scene.Ribbon(ribbons[i%len(ribbons)], w, h) }
}

func axis(w, h float64) scene.Scene { return scene.Axis(at, 6*time.Hour, w, h) }

var gallery = map[string]show{
	"picture": {size: fyne.NewSize(760, 420), content: func() fyne.CanvasObject {
		rows := container.NewVBox(widgets.NewPicture(fyne.NewSize(300, 20), axis))
		for i := range ribbons {
			rows.Add(widgets.NewPicture(fyne.NewSize(300, 44), ribbon(i)))
		}
		marks := container.NewHBox()
		for _, v := range []string{scene.Dry, scene.Short, scene.Unknown, scene.Tight, scene.Holds} {
			marks.Add(widgets.NewPicture(fyne.NewSize(20, 20), func(w, _ float64) scene.Scene { return scene.VerdictMark(v, w) }))
		}
		rows.Add(marks)
		return rows
	}},
	"rows": {size: fyne.NewSize(1220, 420), content: func() fyne.CanvasObject {
		rows := watchRows()
		rows.SetRows(afternoon())
		return rows
	}, then: func(w fyne.Window) {
		w.Canvas().FocusNext()
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
		w.Canvas().Focused().TypedRune('g')
	}},
	"answer": {size: fyne.NewSize(600, 420), content: func() fyne.CanvasObject {
		return container.NewVBox(widgets.NewAnswerCard(shortAnswer()))
	}},
	"answers": {size: fyne.NewSize(1240, 420), content: func() fyne.CanvasObject {
		row := container.NewGridWithColumns(3)
		for _, verdict := range []string{"dry", "holds", "unknown"} {
			data := shortAnswer()
			data.Verdict, data.Title = verdict, verdict+": the words after the verdict may run to a second line, so they do here"
			row.Add(container.NewVBox(widgets.NewAnswerCard(data)))
		}
		return row
	}},
	"window": {size: fyne.NewSize(1366, 768), content: window, then: func(w fyne.Window) {
		w.Canvas().Focus(theField.Keyboard())
		test.Type(theField.Keyboard(), "gull")
		theField.SetSuggestions([]widgets.Suggestion{
			{ID: "1", Text: "Ines A.", Below: "Gull Row 14, Ness · bridge since 15:50", Kind: "home"},
			{ID: "2", Text: "Gull Row", Below: "6 homes", Kind: "street"},
		})
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}},
	"window-plain": {size: fyne.NewSize(1366, 768), content: window, then: func(w fyne.Window) {
		w.Canvas().Focus(theRows.Keyboard())
	}},
	"form": {size: fyne.NewSize(560, 420), content: func() fyne.CanvasObject {
		form, fields := readingForm()
		form.ShowErrors(map[*widgets.Field]error{fields[1]: errors.New("“1,4” can be read in two ways: write 1400 or 1.4")})
		return widgets.NewPanel(form)
	}, then: func(w fyne.Window) { w.Canvas().FocusNext() }},
	"dialog": {size: fyne.NewSize(800, 420), content: func() fyne.CanvasObject { return widget.NewLabel("behind") }, then: func(w fyne.Window) {
		widgets.Warn(w, "Take E-20117 off the books?", "It is recorded as lost. It can come back later by a new fact: found, with the place and the time.", "Record as lost", nil)
	}},
	"dialog-form": {size: fyne.NewSize(800, 420), content: func() fyne.CanvasObject { return widget.NewLabel("behind") }, then: func(w fyne.Window) {
		form, _ := readingForm()
		widgets.ShowForm(w, "Record a reading of E-20117", form)
	}},
	"notice": {size: fyne.NewSize(900, 180), content: func() fyne.CanvasObject {
		done, refused, progress := widgets.NewNotice(), widgets.NewNotice(), widgets.NewProgress()
		done.Offer("E-20117 is in van 2.", "Undo", func() {})
		refused.Refuse("E-20117 is lent to Ines A. since 15:50.", "Record the return first.")
		progress.Start("Reading orders.xlsx, row 412 of 1,200", func() {})
		progress.SetShare(0.34)
		return container.NewVBox(widgets.NewFoot(done), widgets.NewFoot(refused), progress)
	}},
	"rows-empty": {size: fyne.NewSize(800, 200), content: func() fyne.CanvasObject {
		rows := watchRows()
		rows.SetRows(nil)
		return rows
	}},
	"rows-low": {size: fyne.NewSize(700, 300), content: func() fyne.CanvasObject {
		rows := widgets.NewLowRows([]widgets.Column{{Title: "Item", Width: 120}, {Title: "State"}, {Title: "Gauge", Width: 90, Right: true}}, "")
		rows.SetRows([]widgets.Row{
			{ID: "1", Cells: []widgets.Cell{{Text: "E-20117", Bold: true}, {Text: "ready · bay 3"}, {Text: "2,050 psi"}}},
			{ID: "2", Cells: []widgets.Cell{{Text: "E-20118", Bold: true}, {Text: "in use · a very long line about where it is and since when that will not fit"}, {Text: "900 psi"}}},
		})
		return rows
	}},
}

func watchRows() *widgets.Rows {
	return widgets.NewRows([]widgets.Column{
		{Kind: widgets.VerdictColumn, Width: 96},
		{Title: "Home", Width: 260},
		{Kind: widgets.PictureColumn, Head: axis},
		{Title: "Next", Width: 240},
	}, "No home has oxygen yet. Press Ctrl+2 to discharge the first person.")
}

func afternoon() []widgets.Row {
	return []widgets.Row{
		{ID: "ines", Cells: []widgets.Cell{{Text: "short"}, {Text: "Ines A., Gull Row 14", Bold: true, Below: "bridge · E 1,400 psi read 15:50 · 4 L/min"}, {Draw: ribbon(0)}, {Text: "call now: add 2 E, or van 2 first", Bold: true, Ink: scene.Alarm}}},
		{ID: "rhea", Cells: []widgets.Cell{{Text: "unknown"}, {Text: "Rhea M., Upper Ness 2", Bold: true, Below: "gauge 26 h old · power out since 14:05"}, {Draw: ribbon(1)}, {Text: "ask for a reading"}}},
		{ID: "odd", Cells: []widgets.Cell{{Text: "tight"}, {Text: "Odd F., Harbour Lane 9", Bold: true, Below: "outage · 2 E · 3 L/min · turned down to 1"}, {Draw: ribbon(2)}, {Text: "tell clinician: saving oxygen"}}},
		{ID: "jory", Cells: []widgets.Cell{{Text: "holds"}, {Text: "Jory V., Kelp Street 22", Bold: true, Below: "bridge · E 2,000 psi read 16:02 · 2 L/min"}, {Draw: ribbon(3)}, {Text: "concentrator 18:15"}}},
		{ID: "pell", Cells: []widgets.Cell{{Text: "holds"}, {Text: "Pell D., Chapel Steps 4", Bold: true, Below: "backup · E 1,800 psi read Mon"}, {Draw: ribbon(4)}, {Text: "first call due 18:00"}}},
		{ID: "tobin", Cells: []widgets.Cell{{Text: "dry"}, {Text: "Tobin K., Slip House 3", Bold: true, Below: "cylinder only · D 200 psi read 15:10"}, {Draw: ribbon(5)}, {Text: "emergency number now", Bold: true, Ink: scene.Alarm}}},
	}
}

func shortAnswer() widgets.AnswerData {
	return widgets.AnswerData{
		Verdict: "short", Title: "short: gas ends 17 min before the van",
		Low: "21 min", Range: "21 to 43; textbook rule, E at 500 psi and 4 L/min",
		Help: "38 min", HelpNote: "van 2 from Kelp Street; depot 41 min",
		Do:      []string{"Emergency number, then the clinician on call", "Send van 2 with two full E", "Ask Slip House 5, 400 m: backup E, 1,900 psi read 09:10"},
		Assumed: []string{"valve open since the reading", "flow as told", "reserve 200 psi"},
		Facts:   []string{"gauge told by phone 02:10", "order 4 L/min since Sat", "size E from tag"},
		Foot:    "Lungwort does not advise on flow: that is the clinician’s.",
	}
}

var (
	theField *widgets.AnyField
	theRows  *widgets.Rows
)

// window is a whole window as the screens will build it.
func window() fyne.CanvasObject {
	side := widgets.NewSide([]widgets.SideEntry{
		{ID: "needs", Name: "Needs you", Count: 14}, {ID: "discharge", Name: "Discharge", Count: 3}, {ID: "homes", Name: "Homes", Count: 181},
		{ID: "items", Name: "Items", Count: 912}, {ID: "runs", Name: "Runs", Count: 4}, {ID: "calls", Name: "Calls", Count: 9},
		{ID: "outage", Name: "Outage"}, {ID: "bench", Name: "Bench", Count: 12}, {ID: "settings", Name: "Settings"},
	})
	theField = widgets.NewAnyField(func() time.Time { return at })
	theRows = watchRows()
	theRows.SetRows(afternoon())
	horizon := widgets.NewChoice(widgets.Option{Value: "6h", Label: "6 h"}, widgets.Option{Value: "24h", Label: "24 h"}, widgets.Option{Value: "72h", Label: "72 h"})
	horizon.SetValue("6h")
	title := widget.NewLabelWithStyle("What needs you", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	title.SizeName = "headingText"
	notice := widgets.NewNotice()
	notice.Offer("Ines A.: reading 1,400 psi at 15:50 recorded.", "Undo", func() {})
	top := container.NewBorder(nil, nil, nil, widget.NewLabel("Tue 24 Nov 16:20"), theField)
	page := container.NewBorder(container.NewBorder(nil, nil, title, horizon), widgets.NewFoot(notice), nil, nil, theRows)
	return container.NewBorder(nil, nil, side, nil, container.NewBorder(container.NewPadded(top), nil, nil, nil, theField.Over(page)))
}

func readingForm() (*widgets.Form, []*widgets.Field) {
	when := widgets.NewWhen(at.Location())
	when.SetTime(at)
	gauge := widgets.NewQuantity("psi", "bar")
	gauge.SetText("1,4")
	by := widgets.NewChoice(widgets.Option{Value: "phone", Label: "by phone"}, widgets.Option{Value: "visit", Label: "on a visit"})
	by.SetValue("phone")
	fields := []*widgets.Field{
		widgets.NewField("When", when, ""),
		widgets.NewField("Gauge", gauge, "as the needle stands"),
		widgets.NewField("Read", by, ""),
		widgets.NewField("Notes", widgets.NewNotes(), "no names, no diagnoses"),
	}
	form := widgets.NewForm("Record", fields...)
	form.OnCancel = func() {}
	return form, fields
}

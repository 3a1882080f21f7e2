package window

import (
	"context"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/refusal"
	itemstore "lungwort/inventory/store"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/ui/look"
	"lungwort/ui/uitest"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// stub stands for a screen: it remembers what it was opened with.
type stub struct {
	entry  *widget.Entry
	opened []work.Target
	scans  bool
	got    []string
	prints int
}

func (s *stub) Content() fyne.CanvasObject { return s.entry }
func (s *stub) Keyboard() fyne.Focusable   { return s.entry }
func (s *stub) Open(t work.Target)         { s.opened = append(s.opened, t) }
func (s *stub) Print()                     { s.prints++ }
func (s *stub) Scan(text string) bool {
	s.got = append(s.got, text)
	return s.scans
}

// stage is a frame whose screens are stubs, on the desk of the tests.
type stage struct {
	*Frame
	desk  *uitest.Desk
	win   fyne.Window
	stubs map[work.Room]*stub
}

func newStage(t *testing.T) *stage {
	t.Helper()
	s := &stage{desk: uitest.New(t), win: test.NewTempWindow(t, nil), stubs: map[work.Room]*stub{}}
	fyne.CurrentApp().Settings().SetTheme(look.New(look.Light))
	s.win.SetPadded(false)
	s.Frame = NewFrame(s.desk.Work, func() fyne.Canvas { return s.win.Canvas() })
	for _, r := range append(Rooms(), work.Person, work.Item, work.NightLog) {
		s.stubs[r] = &stub{entry: widget.NewEntry()}
		s.rooms[r] = s.stubs[r]
	}
	s.win.SetContent(s.Root())
	s.win.Resize(fyne.NewSize(1366, 768))
	s.Refresh()
	s.Frame.Open(work.Target{Room: work.Needs})
	return s
}

// submit types a text into the field on top and ends it with Enter, as a
// scanner does.
func (s *stage) submit(text string) {
	s.Field()
	s.win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	uitest.Type(s.win, text)
	uitest.Press(s.win, fyne.KeyReturn)
	s.desk.At(s.desk.Now().Add(2e9)) // past the time in which a scanner stutters
}

func (s *stage) here() work.Target { return s.Frame.here }

func TestFieldOpensWhatItNames(t *testing.T) {
	s := newStage(t)
	item := s.desk.Thing("E-20101")
	run, err := tag.PaperCode(tag.PaperRun, string(s.desk.Run))
	require.NoError(t, err)
	night, err := tag.PaperCode(tag.PaperNight, "20300305")
	require.NoError(t, err)
	receipt, err := tag.PaperCode(tag.PaperReceipt, string(s.desk.Persons["Tobin"]))
	require.NoError(t, err)
	for _, tc := range []struct {
		text string
		want work.Target
	}{
		{tag.Mint(item.Tag).Payload(), work.Target{Room: work.Item, Item: item.ID}},
		{"E-20101", work.Target{Room: work.Item, Item: item.ID}},
		{"Kestrel", work.Target{Room: work.Person, Person: s.desk.Persons["Tobin"]}},
		{"rowe", work.Target{Room: work.Homes, Text: "rowe"}},
		{"RG-33", work.Target{Room: work.Items, Text: "RG-33"}},
		{run, work.Target{Room: work.Runs, Run: s.desk.Run}},
		{night, work.Target{Room: work.NightLog}},
		{receipt, work.Target{Room: work.Person, Person: s.desk.Persons["Tobin"]}},
	} {
		s.submit(tc.text)
		assert.Equal(t, tc.want, s.here(), "%s leads to", tc.text)
	}
	assert.Empty(t, s.notice.Text())
}

func TestUnknownTextIsRefusedWithTheNextStep(t *testing.T) {
	s := newStage(t)
	good := tag.Mint(s.desk.Thing("E-20101").Tag).Payload()
	for _, tc := range []struct{ text, says string }{
		{"Nobody Atall", "Nothing in the book goes by “Nobody Atall”."},
		{"E-2O1O1", "E-2O1O1 is not in the book, but E-20101 is near."},
		{good[:len(good)-1] + "?", ""},
	} {
		s.submit(tc.text)
		assert.Equal(t, work.Needs, s.here().Room, "%s opens nothing", tc.text)
		assert.NotEmpty(t, s.notice.Text(), tc.text)
		if tc.says != "" {
			assert.Equal(t, tc.says, s.notice.Text())
		}
	}
}

func TestAScreenThatScansTakesTheScan(t *testing.T) {
	s := newStage(t)
	s.stubs[work.Return].scans = true
	s.Frame.Open(work.Target{Room: work.Return})
	s.submit("E-20101")
	assert.Equal(t, work.Return, s.here().Room)
	assert.Equal(t, []string{"E-20101"}, s.stubs[work.Return].got)
	s.stubs[work.Return].scans = false
	s.submit("E-20102")
	assert.Equal(t, work.Item, s.here().Room, "what the screen does not take goes its ordinary way")
}

func TestSuggestionsByKeys(t *testing.T) {
	s := newStage(t)
	s.Field()
	uitest.Type(s.win, "rowe")
	uitest.Press(s.win, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, work.Target{Room: work.Person, Person: s.desk.Persons["Bram"]}, s.here())
	assert.Same(t, s.stubs[work.Person].entry, s.win.Canvas().Focused(), "the keyboard is in the screen")
}

// What the text may mean hangs below the field; the text stays in sight.
func TestSuggestionsLeaveTheFieldInSight(t *testing.T) {
	s := newStage(t)
	s.Field()
	uitest.Type(s.win, "rowe")
	driver := fyne.CurrentApp().Driver()
	bottom := driver.AbsolutePositionForObject(s.field).Y + s.field.Size().Height
	for _, o := range within(s.Root()) {
		if list, ok := o.(*widgets.Rows); ok && list.Len() == 2 {
			at := driver.AbsolutePositionForObject(list)
			assert.GreaterOrEqual(t, at.Y, bottom)
			assert.InDelta(t, driver.AbsolutePositionForObject(s.field).X, at.X, 12)
			return
		}
	}
	assert.Fail(t, "nothing is suggested")
}

func TestFieldLetsGo(t *testing.T) {
	s := newStage(t)
	s.Field()
	uitest.Type(s.win, "zz")
	uitest.Press(s.win, fyne.KeyEscape, fyne.KeyEscape)
	assert.Same(t, s.stubs[work.Needs].entry, s.win.Canvas().Focused())
}

func TestBackGoesTheWayOneCame(t *testing.T) {
	s := newStage(t)
	way := []work.Target{{Room: work.Homes, Text: "a"}, {Room: work.Person, Person: "p00001"}, {Room: work.Item, Item: "i00001"}}
	for _, to := range way {
		s.Frame.Open(to)
		s.Frame.Open(to) // once more is no step
	}
	for _, want := range []work.Target{way[1], way[0], {Room: work.Needs}, {Room: work.Needs}} {
		s.Back()
		assert.Equal(t, want, s.here())
	}
}

func TestSideBarByKeysAndItsCounts(t *testing.T) {
	s := newStage(t)
	s.win.Canvas().Focus(s.side)
	uitest.Press(s.win, fyne.KeyEnd, fyne.KeyReturn)
	assert.Equal(t, work.Settings, s.here().Room)
	counts, err := countRooms(t.Context(), s.desk.Desk, s.desk.Now())
	require.NoError(t, err)
	assert.Equal(t, 10, counts[work.Homes])
	assert.Equal(t, 1, counts[work.Runs])
	assert.Positive(t, counts[work.Needs])
	assert.Less(t, counts[work.Needs], counts[work.Homes])
	assert.Positive(t, counts[work.Bench])
}

func TestCornerShowsTheClockAndWhoIsOnCall(t *testing.T) {
	s := newStage(t)
	assert.Equal(t, "Tue 5 Mar 16:20", s.clock.Text)
	assert.Equal(t, "on call: night desk 555-0110", s.duty.Text)
	s.desk.At(uitest.Now.AddDate(0, 0, 1))
	opened := len(s.stubs[work.Needs].opened)
	s.Tick()
	assert.Equal(t, "Wed 6 Mar 16:20", s.clock.Text)
	assert.Equal(t, "nobody is set on call: see Settings", s.duty.Text)
	assert.Len(t, s.stubs[work.Needs].opened, opened+1, "the first screen is read anew")
	s.Frame.Open(work.Target{Room: work.Person, Person: s.desk.Persons["Ines"]})
	s.Tick()
	assert.Equal(t, s.desk.Persons["Ines"], s.stubs[work.Person].opened[1].Person, "and so is a person's page")
}

func TestUndoTakesTheOfferOnceAndNeverWhileTyping(t *testing.T) {
	s := newStage(t)
	undone := 0
	s.desk.Offer("Stopped.", "Undo", func() { undone++ })
	s.Undo()
	assert.Zero(t, undone, "a text has the keyboard")
	s.win.Canvas().Focus(s.side)
	s.Undo()
	s.Undo()
	assert.Equal(t, 1, undone)
}

func TestPrintIsTheScreensOwn(t *testing.T) {
	s := newStage(t)
	s.Frame.Open(work.Target{Room: work.Labels})
	s.Print()
	assert.Equal(t, 1, s.stubs[work.Labels].prints)
}

// At the smallest size it is made for, everything of the frame is in sight.
func TestFrameFitsASmallScreen(t *testing.T) {
	s := newStage(t)
	s.desk.Refuse(assert.AnError)
	for _, size := range []fyne.Size{{Width: 1366, Height: 700}, {Width: 1366, Height: 768}} {
		s.win.Resize(size)
		least := s.Root().MinSize()
		assert.LessOrEqual(t, least.Width, size.Width)
		assert.LessOrEqual(t, least.Height, size.Height)
	}
	assert.Less(t, s.field.Size().Height, float32(50), "the field is one line")
}

// The scans go through the field on top as a scanner types them, one every
// half second, ended by Enter or Tab.
func TestAPalletOfTwoHundredIsReceivedThroughTheField(t *testing.T) {
	d := uitest.New(t)
	win := test.NewTempWindow(t, nil)
	f := NewFrame(d.Work, func() fyne.Canvas { return win.Canvas() })
	win.SetContent(f.Root())
	win.Resize(fyne.NewSize(1366, 768))
	f.Open(work.Target{Room: work.Receive})
	uitest.Type(win, "3") // regulators
	f.Field()
	scan := func(code string, end fyne.KeyName) {
		uitest.Type(win, code)
		uitest.Press(win, end)
		d.At(d.Now().Add(500 * time.Millisecond))
	}
	for n := range 200 {
		scan(fmt.Sprintf("RP-%05d", n), []fyne.KeyName{fyne.KeyReturn, fyne.KeyTab}[n%2])
		if n%50 == 7 { // the scanner stutters
			uitest.Press(win, fyne.KeyReturn)
		}
	}
	assert.Equal(t, "200  ·  RP-00199\nregulator", f.scan.Text())
	uitest.Shoot(t, win, "receive-window")
	items, total, err := d.Desk.Items(context.Background(), itemstore.Filter{Text: "RP-"})
	require.NoError(t, err)
	assert.Equal(t, 200, total)
	seen := map[string]bool{}
	for _, i := range items {
		seen[i.Spec.Serial] = true
	}
	assert.Len(t, seen, 200, "none lost, none doubled")
	f.Open(work.Target{Room: work.Needs})
	assert.Empty(t, f.scan.Text(), "what a scan did stays on its screen")
	d.Clean()
}

// Every screen that takes scans says large what a scan did.
func TestWhatAScanDidIsSaidLarge(t *testing.T) {
	s := newStage(t)
	s.Frame.Open(work.Target{Room: work.Return})
	s.stubs[work.Return].scans = true
	for _, c := range []struct {
		says func()
		want string
	}{
		{func() { s.desk.Say("It is done.") }, "It is done.\n"},
		{func() { s.desk.Work.Refuse(refusal.New(refusal.Conflict, "It is not.", "Do it.")) }, "It is not.\nDo it."},
		{func() { s.desk.Work.Scanned(work.Scan{Title: "E-1", Detail: "left here"}) }, "E-1\nleft here"},
	} {
		s.submit("E-20101")
		c.says()
		assert.Equal(t, c.want, s.scan.Text())
		s.desk.Say("Something else.")
		assert.Equal(t, c.want, s.scan.Text(), "what comes later is no answer to the scan")
	}
	s.Frame.Open(work.Target{Room: work.Needs})
	s.submit("E-99999")
	assert.Empty(t, s.scan.Text(), "a screen that takes no scans")
}

// A picture leads where its code does; one with several codes asks, and on a
// screen that takes scans they can all be scanned.
func TestPicturesLeadWhereTheirCodesDo(t *testing.T) {
	s := newStage(t)
	photo := func(payloads ...string) string {
		const module, quiet = 6, 8
		img := image.NewGray(image.Rect(0, 0, 60*module*len(payloads), 60*module))
		draw.Draw(img, img.Bounds(), image.White, image.Point{}, draw.Src)
		for n, payload := range payloads {
			modules, err := paper.Matrix(payload, paper.LevelM)
			require.NoError(t, err)
			for y, row := range modules {
				for x, dark := range row {
					if dark {
						at := image.Pt((60*n+quiet+x)*module, (quiet+y)*module)
						draw.Draw(img, image.Rectangle{Min: at, Max: at.Add(image.Pt(module, module))}, image.Black, image.Point{}, draw.Src)
					}
				}
			}
		}
		path := filepath.Join(t.TempDir(), "photo.png")
		file, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, png.Encode(file, img))
		require.NoError(t, file.Close())
		return path
	}
	one, two := s.desk.Thing("E-20101"), s.desk.Thing("CN00408")
	first, second := tag.Mint(one.Tag).Payload(), tag.Mint(two.Tag).Payload()
	s.Picture(s.win, photo(first))
	assert.Equal(t, work.Target{Room: work.Item, Item: one.ID}, s.here())

	s.Picture(s.win, photo(first, "LW99999399"))
	require.NotNil(t, s.win.Canvas().Overlays().Top())
	uitest.Shoot(t, s.win, "picture")
	uitest.Press(s.win, fyne.KeyHome, fyne.KeyReturn)
	assert.Equal(t, work.Target{Room: work.Item, Item: one.ID}, s.here())

	s.Frame.Open(work.Target{Room: work.Return})
	s.stubs[work.Return].scans = true
	s.Picture(s.win, photo(second))
	assert.Equal(t, []string{second}, s.stubs[work.Return].got, "one code is a scan like any other")

	s.Picture(s.win, filepath.Join(t.TempDir(), "none.png"))
	assert.Contains(t, s.notice.Text(), "can't be opened")
}

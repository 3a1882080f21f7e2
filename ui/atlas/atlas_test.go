package atlas_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/testdata/quillet"
	"lungwort/ui/atlas"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// charted is the desk of the story with the outline of the isles.
func charted(t testing.TB) *uitest.Desk {
	d := uitest.New(t)
	o, err := quillet.At(uitest.Now).Outline()
	require.NoError(t, err)
	d.Act(delivery.TakeOutline{File: quillet.OutlineFile, Outline: o})
	return d
}

func shown(t testing.TB, d *uitest.Desk) (*atlas.View, fyne.Window) {
	v := atlas.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Map})
	win.Canvas().Focus(v.Keyboard())
	return v, win
}

// TestByKeys goes from home to home, zooms, and opens the person.
func TestByKeys(t *testing.T) {
	d := charted(t)
	v, win := shown(t, d)
	uitest.Shoot(t, win, "map-1-all")
	m := v.Model()
	assert.Contains(t, m.Title(), "homes · facts as of 16:20")
	uitest.Press(win, fyne.KeyUp)
	first, found := m.Hand()
	require.True(t, found, "an arrow takes a home")
	uitest.Press(win, fyne.KeyLeft, fyne.KeyRight)
	before := v.Map().Sight()
	uitest.Type(win, "++")
	assert.Greater(t, v.Map().Sight().Scale, before.Scale*1.5)
	uitest.Shoot(t, win, "map-2-near")
	uitest.Press(win, fyne.KeyHome)
	assert.InDelta(t, before.Scale, v.Map().Sight().Scale, 1e-6, "Home shows everything")
	m.Take(first.ID)
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, []work.Target{{Room: work.Person, Person: first.ID}}, d.Opened)
	d.Clean()
}

// TestPointer: what is pulled goes along, the wheel zooms around the pointer,
// a click takes a home and a second one opens it.
func TestPointer(t *testing.T) {
	d := charted(t)
	v, win := shown(t, d)
	ines := d.Persons["Ines"]
	at := func() scene.Point {
		p := d.Page("Ines").Address.Point
		size := v.Map().Size()
		return v.Map().Sight().Point(scene.Position{Lat: p.Lat, Lon: p.Lon}, float64(size.Width), float64(size.Height))
	}
	was := at()
	v.Map().Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(30, -20)})
	v.Map().DragEnd()
	assert.InDelta(t, was.X+30, at().X, 0.01)
	assert.InDelta(t, was.Y-20, at().Y, 0.01)
	here := fyne.NewPos(float32(at().X), float32(at().Y))
	wheel := &fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 50)}
	wheel.Position = here
	v.Map().Scrolled(wheel)
	assert.InDelta(t, float64(here.X), at().X, 0.01)
	tap := &fyne.PointEvent{Position: here}
	v.Map().Tapped(tap)
	require.Equal(t, ines, v.Model().InHand)
	assert.Empty(t, d.Opened)
	v.Map().Tapped(tap)
	assert.Equal(t, []work.Target{{Room: work.Person, Person: ines}}, d.Opened)
	_ = win
}

// TestAreaChoosesHomes draws around homes by pointer and by keys.
func TestAreaChoosesHomes(t *testing.T) {
	d := charted(t)
	v, win := shown(t, d)
	m := v.Model()
	size := v.Map().Size()
	v.Map().MouseDown(&desktop.MouseEvent{Modifier: fyne.KeyModifierShift})
	pull := &fyne.DragEvent{Dragged: fyne.NewDelta(size.Width-2, size.Height-2)}
	pull.Position = fyne.NewPos(size.Width-1, size.Height-1)
	v.Map().Dragged(pull)
	v.Map().DragEnd()
	assert.Len(t, m.Chosen, len(m.Homes), "the rectangle holds all")
	uitest.Shoot(t, win, "map-3-area")
	uitest.Press(win, fyne.KeyEscape)
	assert.Empty(t, m.Chosen)

	m.Take(d.Persons["Ines"])
	uitest.Type(win, "+++++")
	v.Map().KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	uitest.Press(win, fyne.KeyRight)
	assert.Contains(t, m.Chosen, d.Persons["Ines"])
	few := len(m.Chosen)
	uitest.Press(win, fyne.KeyRight, fyne.KeyDown)
	v.Map().KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	assert.GreaterOrEqual(t, len(m.Chosen), few)
	assert.Contains(t, m.ChosenTitle(), "chosen")
}

// TestTakeOutline takes a file in, keeps it in the book, and refuses what is no
// outline.
func TestTakeOutline(t *testing.T) {
	d := uitest.New(t)
	v, _ := shown(t, d)
	m := v.Model()
	assert.Contains(t, m.Title(), "no outline yet")
	dir := t.TempDir()
	good, bad := filepath.Join(dir, "isles.geojson"), filepath.Join(dir, "isles.kml")
	require.NoError(t, os.WriteFile(good, []byte(`{"type":"Polygon","coordinates":[[[-40.7,36.4],[-40.3,36.4],[-40.5,36.7]]]}`), 0o600))
	require.NoError(t, os.WriteFile(bad, []byte(`<kml/>`), 0o600))
	m.TakeOutline(bad)
	assert.Contains(t, d.Refusal().Says, "no outline")
	m.TakeOutline(filepath.Join(dir, "nothing"))
	assert.Contains(t, d.Refusal().Says, "can't be opened")
	d.Refused = nil
	m.TakeOutline(good)
	require.Empty(t, d.Refused)
	require.NoError(t, os.Remove(good))
	kept, err := d.Desk.Outline(context.Background())
	require.NoError(t, err)
	assert.Equal(t, 3, kept.Size(), "the book keeps it")
	assert.NotContains(t, m.Title(), "no outline")
	d.Clean()
}

// TestHomeWithoutAPlaceIsListed: it can't be drawn, and is not forgotten.
func TestHomeWithoutAPlaceIsListed(t *testing.T) {
	d := charted(t)
	page := d.Page("Ines")
	page.Address.Point.Lat, page.Address.Point.Lon = 0, 0
	d.Act(delivery.Register{Person: page.Person, Address: page.Address})
	v, _ := shown(t, d)
	var lost []inventory.PersonID
	for _, h := range v.Model().Lost {
		lost = append(lost, h.ID)
	}
	assert.Contains(t, lost, page.Person.ID)
}

// TestSetPlace: a home without a place gets one from the pin; the sea is asked
// about, and what is only about right is kept as that.
func TestSetPlace(t *testing.T) {
	d := charted(t)
	page := d.Page("Ines")
	area := page.Address.Point.Area
	page.Address.Point.Lat, page.Address.Point.Lon = 0, 0
	d.Act(delivery.Register{Person: page.Person, Address: page.Address})
	v, _ := shown(t, d)
	m := v.Model()
	m.InHand = page.Person.ID
	m.PinAt(scene.Position{Lat: 36.54, Lon: -40.49})
	form, err := m.PlaceForm()
	require.NoError(t, err)
	submit := func(more map[string]string) (closed bool, wrong int) {
		w := form.Submit(form.Answered().With(more), func(err error) { require.NoError(t, err); closed = true })
		return closed, len(w)
	}
	_, wrong := submit(map[string]string{"where": "somewhere"})
	assert.Equal(t, 1, wrong)
	_, wrong = submit(map[string]string{"where": "36.2, -40.1"})
	assert.Equal(t, 1, wrong, "the sea is asked about")
	closed, _ := submit(map[string]string{"sure": "rough"})
	require.True(t, closed)
	home := d.Page("Ines").Address
	assert.Equal(t, delivery.Point{Lat: 36.54, Lon: -40.49, Area: area}, home.Point)
	assert.True(t, home.Rough)
	assert.Empty(t, m.Lost)
	assert.Equal(t, "place on the map set, only about right", delivery.Sentence(d.Page("Ines").Facts[0]))
	d.Clean()
}

// TestPlaceIsChosenAmongTwo: a home nobody knows the place of is found in the
// place file; where two of the name are listed the form lists them, and a number
// chooses. What was found is confirmed as it is.
func TestPlaceIsChosenAmongTwo(t *testing.T) {
	d := charted(t)
	page := d.Page("Ines")
	page.Address.Street, page.Address.Town = "Tern Row 5", ""
	page.Address.Point.Lat, page.Address.Point.Lon = 0, 0
	d.Act(delivery.Register{Person: page.Person, Address: page.Address})
	v, win := shown(t, d)
	m := v.Model()
	file := filepath.Join(t.TempDir(), "places.csv")
	require.NoError(t, os.WriteFile(file, []byte("Name,Town,Lat,Lon\nTern Row,Ness,36.54,-40.49\nTern Row,Saltpan,36.52,-40.51\n"), 0o600))
	m.TakeFile(file)
	require.Empty(t, d.Refused)
	m.Take(page.Person.ID)
	form, err := m.PlaceForm()
	require.NoError(t, err)
	assert.Contains(t, form.Before, "It may be 1: Tern Row, Ness (36.5400, -40.4900); 2: Tern Row, Saltpan")
	assert.Len(t, form.Submit(form.Answered().With(map[string]string{"where": "3"}), nil), 1)
	require.Empty(t, form.Submit(form.Answered().With(map[string]string{"where": "2", "sure": "rough"}), func(err error) { require.NoError(t, err) }))
	home := d.Page("Ines").Address
	assert.Equal(t, -40.51, home.Point.Lon)
	assert.True(t, home.Rough)
	uitest.Shoot(t, win, "map-4-rough")
	form, err = m.PlaceForm()
	require.NoError(t, err)
	assert.Contains(t, form.Before, "Set it as it is to confirm it")
	require.Empty(t, form.Submit(form.Answered(), func(err error) { require.NoError(t, err) }))
	assert.False(t, d.Page("Ines").Address.Rough)
	m.TakeFile(filepath.Join(t.TempDir(), "nothing.csv"))
	assert.NotEmpty(t, d.Refused)
}

func TestPrint(t *testing.T) {
	d := charted(t)
	v, _ := shown(t, d)
	v.Print()
	require.Empty(t, d.Refused)
	require.Len(t, d.Shown, 1)
	info, err := os.Stat(d.Shown[0])
	require.NoError(t, err)
	assert.Greater(t, info.Size(), int64(10_000))
	if keep := os.Getenv("PAPER_KEEP"); keep != "" {
		body, err := os.ReadFile(d.Shown[0])
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(keep, "map.pdf"), body, 0o600))
	}
}

// TestAreaServesOtherScreens: the homes inside the line go to power cuts,
// recalls and runs.
func TestAreaServesOtherScreens(t *testing.T) {
	d := charted(t)
	_, _ = shown(t, d)
	m := atlas.NewModel(d.Work)
	m.Load()
	m.TakeTo(work.Outage)
	assert.Contains(t, d.Refusal().Says, "No homes are chosen")
	d.Refused = nil
	m.Draw([]scene.Position{{Lat: 30, Lon: -50}, {Lat: 30, Lon: -30}, {Lat: 45, Lon: -30}, {Lat: 45, Lon: -50}}, true)
	require.NotEmpty(t, m.Chosen)
	for _, room := range []work.Room{work.Outage, work.Recall, work.Runs} {
		m.TakeTo(room)
		to := d.Opened[len(d.Opened)-1]
		assert.Equal(t, room, to.Room)
		assert.ElementsMatch(t, m.Chosen, to.Homes)
	}
}

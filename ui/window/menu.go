package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"lungwort/ui/look"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// roomKeys are the keys of the screens with Ctrl. They stay what they were
// learned as, wherever a new screen stands in the side bar.
var roomKeys = map[work.Room]fyne.KeyName{
	work.Needs: fyne.Key1, work.Discharge: fyne.Key2, work.Homes: fyne.Key3, work.Items: fyne.Key4, work.Runs: fyne.Key5,
	work.Return: fyne.Key6, work.Bench: fyne.Key7, work.Receive: fyne.Key8, work.Labels: fyne.Key9, work.Papers: fyne.Key0,
	work.Calls:  fyne.KeyL,
	work.Night:  fyne.KeyN,
	work.Map:    fyne.KeyM,
	work.Outage: fyne.KeyO, // the power goes out at any hour
}

// menu holds every shortcut, because a menu is asked before the field that has
// the keyboard.
func (p *program) menu() *fyne.MainMenu {
	rooms := make([]*fyne.MenuItem, 0, len(names))
	for _, n := range names {
		if p.frame != nil && !p.frame.work.Has(n.room) {
			continue
		}
		var shortcut fyne.Shortcut
		if key, has := roomKeys[n.room]; has {
			shortcut = control(key)
		}
		rooms = append(rooms, p.item(n.name, shortcut, func() { p.frame.Open(work.Target{Room: n.room}) }))
	}
	back := &desktop.CustomShortcut{KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierAlt}
	shade := func(name string, shade look.Shade) *fyne.MenuItem {
		return p.item(name, nil, func() { p.app.Settings().SetTheme(look.New(shade)) })
	}
	return fyne.NewMainMenu(
		fyne.NewMenu("Go to", append(rooms, fyne.NewMenuItemSeparator(), p.item("Back", back, func() { p.frame.Back() }))...),
		fyne.NewMenu("Do",
			p.item("Scan or find", control(fyne.KeyF), func() { p.frame.Field() }),
			p.item("Read a picture", control(fyne.KeyI), p.askPicture),
			p.item("Take back", &fyne.ShortcutUndo{}, func() { p.frame.Undo() }),
			p.item("Key in the night log", nil, func() { p.frame.Open(work.Target{Room: work.NightLog}) }),
			p.item("Print", control(fyne.KeyP), func() { p.frame.Print() }),
			p.item("Read anew", control(fyne.KeyR), func() { p.frame.Again() }),
			p.item("As of…", control(fyne.KeyT), p.askPast),
			p.item("Back to now", nil, p.backToNow)),
		fyne.NewMenu("Desk",
			p.item("Hide names (F12)", nil, p.veil),
			p.item("Lock", control(fyne.KeyK), p.lock),
			p.item("Somebody else", nil, p.leaveDesk),
			p.item("My passphrase", nil, p.askPassphrase)),
		fyne.NewMenu("Look", shade("Light", look.Light), shade("Dark", look.Dark), shade("As the desktop", look.AsDesktop)),
		fyne.NewMenu("Help", p.item("Keys (F1)", nil, p.tellKeys)),
	)
}

// item is a line of the menu. It does nothing while a question is open over
// the window, for its keys would reach past the question.
func (p *program) item(name string, shortcut fyne.Shortcut, do func()) *fyne.MenuItem {
	item := fyne.NewMenuItem(name, func() {
		p.used()
		if p.frame != nil && p.locked == nil && p.window.Canvas().Overlays().Top() == nil {
			do()
		}
	})
	item.Shortcut = shortcut
	return item
}

func control(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl}
}

// typed takes the keys that no widget has a use for.
func (p *program) typed(e *fyne.KeyEvent) {
	p.used()
	switch e.Name {
	case fyne.KeyF1:
		p.tellKeys()
		return
	case fyne.KeyF12:
		p.veil()
		return
	}
	p.frame.Key(e.Name)
}

// keys are what the keyboard does, in the order a day uses them.
var keys = []struct{ key, does string }{
	{"Ctrl+F", "into the field on top: scan, or type a tag, serial, name, phone or street"},
	{"Ctrl+1 … Ctrl+9, Ctrl+0", "the screens; the menu “Go to” says which has which key"},
	{"Ctrl+N", "gas is ending: gauge and flow, how long, who is nearest; F7 on a person's page or in Calls"},
	{"F8", "on a person's page or in Calls: a machine beeps, or somebody is short of breath"},
	{"F9", "on the first screen: what changed since last evening, on Monday since Friday"},
	{"Ctrl+O", "power out: who lasts how long, whom to call"},
	{"Ctrl+M", "the map"},
	{"Alt+Left", "back to the screen before"},
	{"Tab", "on to the next part of a screen"},
	{"Up, Down, Page, Home, End", "along a list; letters find a row in it"},
	{"Enter", "open the row, go to the next field, press the button"},
	{"Ctrl+Enter", "done with a form"},
	{"Esc", "out of a field, a form, a question"},
	{"Ctrl+P", "print what the screen is there to print"},
	{"Ctrl+I", "read the codes in a picture; or drop one on the window"},
	{"Ctrl+Z", "take back what the bottom line offers to take back"},
	{"Ctrl+R", "read the book anew"},
	{"F12", "hide names, streets and phones from who walks by; again: show them"},
	{"Ctrl+K", "lock the window, where names are asked for"},
	{"Ctrl+T", "as of…: every screen as the book was known at a moment"},
	{"F1", "this list"},
}

// tellKeys shows what the keyboard does.
func (p *program) tellKeys() {
	if p.window.Canvas().Overlays().Top() != nil {
		return
	}
	lines := container.New(layout.NewFormLayout())
	for _, k := range keys {
		lines.Add(widget.NewLabelWithStyle(k.key, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		lines.Add(widget.NewLabel(k.does))
	}
	widgets.Tell(p.window, "Keys", lines)
}

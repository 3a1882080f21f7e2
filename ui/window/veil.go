package window

// veiled is the preference of this desk that remembers the privacy view.
const veiled = "veiled"

// veil switches the privacy view: names, streets and phones give way to
// initials and numbers, until it is switched off; the desk remembers it.
func (p *program) veil() {
	if p.frame == nil || p.locked != nil {
		return
	}
	w := p.frame.work
	w.Veil = !w.Veil
	p.app.Preferences().SetBool(veiled, w.Veil)
	p.frame.Veiled()
}

// Veiled takes up that names are to be hidden, or shown again. A screen in which
// something may be typed keeps what it shows: nothing typed is lost for it.
func (f *Frame) Veiled() {
	f.field.SetText("")
	says := "Names, streets and phones are shown again."
	if f.work.Veil {
		says = "Names, streets and phones are hidden; papers still show them. F12 shows them again."
		if _, list := f.rooms[f.here.Room].(rereading); !list {
			says = "From the next screen on names, streets and phones are hidden; this one keeps what is typed in it. Ctrl+R hides them here too, F12 shows them again."
		}
	}
	f.Reread()
	f.say(says)
}

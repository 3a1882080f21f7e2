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

// Veiled takes up that names are to be hidden, or shown again. A form in which
// something was typed keeps what it shows until it is done.
func (f *Frame) Veiled() {
	f.field.SetText("")
	says := "Names, streets and phones are shown again."
	if f.work.Veil {
		says = "Names, streets and phones are hidden; papers still show them. F12 shows them again."
	}
	if _, list := f.rooms[f.here.Room].(rereading); list {
		f.Reread()
	} else {
		f.Again()
	}
	f.say(says)
}

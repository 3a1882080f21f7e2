package discharge

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/scene"
	"lungwort/ui/meter"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// View is the discharge screen.
type View struct {
	model   *Model
	fields  map[Field]*widgets.Field
	texts   map[Field]*widgets.Text
	picks   map[Field]*widgets.Choice
	parts   *widgets.Ticks
	whens   map[Field]*widgets.When
	kits    *widgets.Choice
	lines   *widgets.Lines
	waiting *widgets.Rows
	card    *widgets.AnswerCard
	axis    *widgets.Picture
	ribbon  *widgets.Picture
	notes   *fyne.Container
	lacks   *widget.Label
	// kitWrong says what is wrong with the kit as a whole.
	kitWrong *widget.Label
	who      *widget.Label
	hand     *widgets.Button
	anew     *widgets.Button
	slot     *widgets.Button
	later    *widgets.Button
	columns  *fyne.Container
	stage    *fyne.Container
	chooser  fyne.CanvasObject
	scrolls  []*container.Scroll
	drawing  bool
	content  fyne.CanvasObject
}

// New returns the discharge screen.
func New(w *work.Work) *View {
	v := &View{
		model: NewModel(w), fields: map[Field]*widgets.Field{}, texts: map[Field]*widgets.Text{},
		picks: map[Field]*widgets.Choice{}, whens: map[Field]*widgets.When{},
		lines: widgets.NewLines("Choose a kit list, or scan what goes along."),
		kits:  widgets.NewChoice(), notes: container.New(layout.NewCustomPaddedVBoxLayout(-6)), lacks: widget.NewLabel(""), kitWrong: widget.NewLabel(""), who: widget.NewLabel(""),
	}
	v.model.Changed, v.model.Focus, v.model.Confirm = v.draw, v.focus, v.confirm
	v.wireKit()
	v.answerParts()
	v.waiting = widgets.NewRows([]widgets.Column{{Title: "waits for a kit", Width: 420}, {Title: "order"}, {Title: "ordered", Width: 140}}, "Nobody waits with an order.")
	v.waiting.OnOpen = func(id string) { v.model.Choose(inventory.PersonID(strings.TrimPrefix(id, "new"))) }
	v.hand = widgets.NewMainButton("Hand over   Ctrl+Enter", v.model.HandOver)
	v.anew = widgets.NewButton("Somebody else", v.model.Reset)
	v.slot = widgets.NewButton("", v.model.TakeSlot)
	v.later = widgets.NewButton("", v.model.TakeLater)
	v.layout()
	v.link()
	return v
}

func (v *View) wireKit() {
	v.lines.OnValue = v.model.SetGauge
	v.lines.OnEnter = func(id, text string) bool {
		if !meter.Scanned(text) {
			return false
		}
		v.model.SetGauge(id, "")
		return v.model.Scan(text)
	}
	v.lines.OnOffer, v.lines.OnAside, v.lines.OnDrop = v.model.Swap, v.model.Turn, v.model.Drop
	v.kits.OnChanged = v.model.SetKit
}

func (v *View) answerParts() {
	v.card = widgets.NewAnswerCard(widgets.AnswerData{})
	v.axis = widgets.NewPicture(fyne.NewSize(0, 20), func(w, h float64) scene.Scene {
		return scene.Axis(v.model.draft.now, Horizon, w, h)
	})
	v.ribbon = widgets.NewPicture(fyne.NewSize(0, 44), func(w, h float64) scene.Scene {
		return scene.Ribbon(v.model.Ribbon(), w, h)
	})
	v.lacks.Importance, v.lacks.Wrapping = widget.DangerImportance, fyne.TextWrapWord
	v.lacks.Hide()
	v.kitWrong.Importance, v.kitWrong.Wrapping = widget.DangerImportance, fyne.TextWrapWord
}

// text makes a field of text. Beside says it shares its line with another.
func (v *View) text(f Field, label, placeholder string, room float32) *widgets.Field {
	in := widgets.NewText()
	in.PlaceHolder = placeholder
	in.OnChanged = func(text string) { v.model.Set(f, text) }
	v.texts[f] = in
	return v.keep(f, widgets.NewField(label, in, "").Narrow(room))
}

func (v *View) flow(f Field, label string, room float32) *widgets.Field {
	in := widgets.NewQuantity("L/min")
	shown := in.OnChanged
	in.OnChanged = func(text string) { shown(text); v.model.Set(f, text) }
	v.texts[f] = &in.Text
	return v.keep(f, widgets.NewField(label, in, "").Narrow(room))
}

func (v *View) pick(f Field, label string, room float32, options ...widgets.Option) *widgets.Field {
	in := widgets.NewChoice(options...)
	in.OnChanged = func(value string) { v.model.Set(f, value) }
	v.picks[f] = in
	return v.keep(f, widgets.NewField(label, in, "").Narrow(room))
}

// ticks makes the field of the small parts that go along.
func (v *View) ticks() *widgets.Field {
	v.parts = widgets.NewTicks()
	v.parts.OnChanged = func(there []string) { v.model.Set(Parts, strings.Join(there, ",")) }
	return v.keep(Parts, widgets.NewField("Parts", v.parts, "").Narrow(wide))
}

func (v *View) when(f Field, label string, room float32) *widgets.Field {
	in := widgets.NewWhen(v.model.work.Now().Location())
	in.ClockOn(v.model.work.Now)
	shown := in.OnChanged
	in.OnChanged = func(text string) {
		shown(text)
		if v.drawing {
			return
		}
		t, err := in.Time()
		if strings.TrimSpace(text) == "" {
			err = nil
		}
		v.model.SetTime(f, t, err)
	}
	v.whens[f] = in
	return v.keep(f, widgets.NewField(label, in, "").Narrow(room))
}

func (v *View) keep(f Field, field *widgets.Field) *widgets.Field {
	v.fields[f] = field
	return field
}

// Rooms for labels, in points.
const (
	wide  = 92
	short = 72
	brief = 64 // beside another field of the left column
)

func beside(a, b fyne.CanvasObject) fyne.CanvasObject { return container.NewGridWithColumns(2, a, b) }

func heading(text string) *widget.Label {
	h := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	h.SizeName = theme.SizeNameSubHeadingText
	return h
}

func (v *View) layout() {
	given := []widgets.Option{{Value: Yes, Label: Yes}, {Value: No, Label: No}}
	person := container.NewVBox(
		beside(v.text(Family, "Family", "", wide), v.text(Given, "Given", "", brief)),
		beside(v.text(Born, "Born", "1950-04-12", wide), v.text(Record, "Record", "", brief)),
		v.text(Phones, "Phones", "555-0120, daughter 555-0177", wide),
		beside(v.text(Language, "Language", "if not yours", wide), v.text(Stairs, "Stairs", "floors", brief)),
		v.text(Street, "Tonight at", "street and number", wide),
		beside(v.text(Town, "Town", "", wide), v.text(Area, "Area", "", brief)),
		v.text(Spot, "On the map", "36.5210, -40.5020", wide),
		v.text(Access, "Access", "gate code, parking, dog", wide),
		v.pick(Mains, "Power", wide, widgets.Option{Value: "mains", Label: "mains"}, widgets.Option{Value: "prepaid meter", Label: "prepaid"}, widgets.Option{Value: "no mains", Label: "none"}),
		v.pick(Smoker, "Smoker", wide, widgets.Option{Value: "no", Label: "no"}, widgets.Option{Value: "yes", Label: "yes"}, widgets.Option{Value: "asked and not told", Label: "not told"}),
		v.pick(Sharing, "Share data", wide, given...),
		v.pick(Notice, "Fire service", wide, given...),
		v.pick(Risk, "Risk form", wide, given...),
		v.ticks(), v.text(Supplies, "Supplies", "2 cannula lot C77", wide),
	)
	order := container.NewVBox(
		beside(v.flow(Rest, "At rest", short), v.flow(Exertion, "Exertion", short)),
		beside(v.flow(Asleep, "Asleep", short), v.text(Hours, "Hours", "a day", short)),
		beside(v.text(Review, "Review", "2030-04-02", short), v.text(Setting, "Pulse", "setting", short)),
		v.text(Bolus, "A breath", gas.PulseExample, short),
		v.text(Prescriber, "By", "who ordered it", short),
		v.text(OwnBands, "Bands", bandsExample, short),
		heading("The way home"),
		beside(v.text(Ward, "Ward", "", short), v.text(Ride, "Ride", "", short)),
		v.when(Leaves, "Leaves", short),
		v.when(Arrives, "Delivery", short),
		beside(v.text(SetUp, "Set-up", "", short), v.text(WarmUp, "Warm-up", "", 84)),
		v.slot,
		v.later,
	)
	keys := widget.NewLabel("F2 take what is offered  ·  F4 bring or take along  ·  Delete drop")
	keys.SizeName, keys.Importance, keys.Truncation = theme.SizeNameCaptionText, widget.LowImportance, fyne.TextTruncateEllipsis
	kit := container.NewBorder(container.NewHBox(heading("Kit"), v.kits), container.NewVBox(v.kitWrong, keys), nil, nil, v.lines)
	left, middle := container.NewVScroll(container.NewPadded(person)), container.NewBorder(container.NewVBox(heading("Order"), order), nil, nil, nil, kit)
	answer := container.NewVScroll(container.NewPadded(v.card))
	v.scrolls = []*container.Scroll{left}
	right := container.NewBorder(container.NewVBox(v.axis, v.ribbon), container.NewVBox(v.notes, v.lacks, v.hand), nil, nil, answer)
	first := container.NewBorder(container.NewBorder(nil, nil, v.who, v.anew), nil, nil, nil, left)
	v.columns = container.NewGridWithColumns(3, first, container.NewPadded(middle), container.NewPadded(right))
	v.chooser = container.NewBorder(heading("Who leaves the ward?"), nil, nil, nil, v.waiting)
	v.stage = container.NewStack(v.columns, v.chooser)
	v.content = v.stage
}

func (v *View) link() {
	inputs := make([]widgets.Input, 0, len(inOrder))
	for _, f := range inOrder {
		if f == Kit {
			continue
		}
		inputs = append(inputs, v.fields[f].Input())
	}
	widgets.Link(v.model.HandOver, nil, append(inputs, v.kits, v.lines)...)
}

// Content returns what the window shows.
func (v *View) Content() fyne.CanvasObject { return v.content }

// Keyboard returns where the keys go first.
func (v *View) Keyboard() fyne.Focusable {
	if v.model.Choosing {
		return v.waiting.Keyboard()
	}
	return v.texts[Family]
}

// Open shows a discharge: of the person of the target, else of whoever is
// chosen. What was written for somebody before stays.
func (v *View) Open(t work.Target) {
	if t.Person == "" && len(v.model.touched) > 0 {
		v.model.recompute()
		return
	}
	v.model.Load(t.Person)
}

// Scan puts a scanned thing into the kit.
func (v *View) Scan(text string) bool { return !v.model.Choosing && v.model.Scan(text) }

// Typing returns the fields that take typing, by name.
func (v *View) Typing() (inventory.PersonID, map[string]widgets.Input) {
	return "", widgets.Inputs(v.fields)
}

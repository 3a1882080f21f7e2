package window

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
)

// used notes that somebody is at the desk.
func (p *program) used() { p.lastUse = p.now() }

// minute locks the window after a while in which nobody used it.
func (p *program) minute() {
	if _, signedIn := p.desk.User(); !signedIn || p.locked != nil {
		return
	}
	idle := p.now().Sub(p.lastUse)
	var programme delivery.Programme
	p.run.Go("idle", func(ctx context.Context) (err error) {
		programme, err = p.desk.Programme(ctx)
		return err
	}, func(err error) {
		if wait := programme.LockWait(); err == nil && idle >= wait && p.now().Sub(p.lastUse) >= wait {
			p.lock()
		}
	})
}

// awake is content that notes each move of the pointer over it.
type awake struct {
	widget.BaseWidget

	content fyne.CanvasObject
	used    func()
}

var _ desktop.Hoverable = (*awake)(nil)

func newAwake(content fyne.CanvasObject, used func()) *awake {
	a := &awake{content: content, used: used}
	a.ExtendBaseWidget(a)
	return a
}

// MouseIn, MouseMoved and MouseOut note the pointer.
func (a *awake) MouseIn(*desktop.MouseEvent)    { a.used() }
func (a *awake) MouseMoved(*desktop.MouseEvent) { a.used() }
func (a *awake) MouseOut()                      { a.used() }

// CreateRenderer is called by the toolkit.
func (a *awake) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(a.content) }

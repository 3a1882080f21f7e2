package window

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/widgets"
)

// open opens the book; one that another program has, or that this user may not
// write to, to look only.
func (p *program) open(ctx context.Context) (err error) {
	p.lookOnly = ""
	p.book, err = book.Open(ctx, p.path, p.options())
	var no *refusal.Error
	if !errors.As(err, &no) || book.OnServer(p.path) || no.Kind != refusal.Busy && no.Kind != refusal.ReadOnly {
		return err
	}
	looking, fails := book.OpenReadOnly(ctx, p.path, p.options())
	if fails != nil {
		return err // it says more
	}
	p.book, p.lookOnly = looking, no.Says
	return nil
}

// screens are the frame, under a band that says so where the book is open to look
// only.
func (p *program) screens() fyne.CanvasObject {
	if p.lookOnly == "" {
		return p.frame.Root()
	}
	says := widget.NewLabelWithStyle(p.lookOnly+" It is shown to look only; nothing can be entered.", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	says.Truncation = fyne.TextTruncateEllipsis
	return container.NewBorder(widgets.NewPanel(says), nil, nil, nil, p.frame.Root())
}

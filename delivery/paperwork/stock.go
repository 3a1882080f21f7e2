package paperwork

import (
	"lungwort/delivery"
	"lungwort/labels/paper"
)

// Stock returns a label stock of the programme's own as paper prints on it.
func Stock(s delivery.LabelStock) paper.Stock {
	if s.Page == delivery.PaperRoll {
		return paper.Roll(s.Name, paper.MM(s.Width), paper.MM(s.Height))
	}
	page := paper.Letter
	if s.Page == delivery.PaperA4 {
		page = paper.A4
	}
	return paper.Stock{
		Name: s.Name, Page: page, Rows: s.Rows, Columns: s.Columns,
		Width: paper.MM(s.Width), Height: paper.MM(s.Height), Left: paper.MM(s.Left), Top: paper.MM(s.Top),
		GapAcross: paper.MM(s.Across), GapDown: paper.MM(s.Down),
	}
}

// Stocks are the programme's own label stocks. One that can't be printed on is
// left out: the settings say what is wrong with it.
func (d Desk) Stocks() []paper.Stock {
	var own []paper.Stock
	for _, s := range d.Programme.Stocks {
		if stock := Stock(s); stock.Check() == nil {
			own = append(own, stock)
		}
	}
	return own
}

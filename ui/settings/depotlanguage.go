package settings

import (
	"cmp"
	"strings"

	"lungwort/delivery"
	"lungwort/labels/tongue"
)

// depotLanguage takes any name: the programme's own language files are where
// papers are printed, which says so when it has none of that name.
var depotLanguage = value{"depot_language", "Tags and slips speak",
	func(p delivery.Programme) string { return cmp.Or(p.DepotLanguage, tongue.English().Name) },
	func(p *delivery.Programme, text string) error {
		p.DepotLanguage = strings.TrimSpace(text)
		if tongue.English().Goes(p.DepotLanguage) {
			p.DepotLanguage = ""
		}
		return nil
	}}

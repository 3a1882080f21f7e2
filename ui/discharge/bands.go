package discharge

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory/gas"
)

// bandsExample is how the clinician's own bands are written: the saturation to
// hold, the flow from which to tell, the flow from which to send, and who said
// so.
const bandsExample = "90, 5, 6, Dr Holm"

// readBands reads the clinician's own bands, "90, 5, 6, Dr Holm", or that they
// are waived, "waived, Dr Holm". An empty text says nothing.
func readBands(text string) (*delivery.GiveBands, error) {
	if text = strings.TrimSpace(text); text == "" {
		return nil, nil
	}
	parts := strings.Split(text, ",")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	if strings.EqualFold(parts[0], "waived") {
		by := strings.Join(parts[1:], ", ")
		if by == "" {
			return nil, errors.New("who waived them? Write waived, Dr Holm")
		}
		return &delivery.GiveBands{Waived: true, By: by}, nil
	}
	if len(parts) < 4 || parts[3] == "" {
		return nil, fmt.Errorf("write what to hold, from which flow to tell, from which to send, and who said so, as %s", bandsExample)
	}
	hold, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(parts[0], "%")), 64)
	if err != nil {
		return nil, fmt.Errorf("“%s” is not a saturation: write it as 90", parts[0])
	}
	tell, err := gas.ParseFlow(parts[1])
	if err != nil {
		return nil, err
	}
	send, err := gas.ParseFlow(parts[2])
	if err != nil {
		return nil, err
	}
	bands := delivery.Bands{Target: hold, Borderline: tell, Emergency: send}
	return &delivery.GiveBands{Target: hold, Borderline: tell, Emergency: send, By: strings.Join(parts[3:], ", ")}, bands.Check()
}

// AsksBands reports whether this order needs bands of the clinician's own that
// the book does not have.
func (m *Model) AsksBands() bool {
	order := m.order()
	care := m.draft.page.Care
	care.Order = &order
	return care.LacksBands(m.draft.programme)
}

// bandsHint says what was written, in words.
func (m *Model) bandsHint() string {
	given, err := readBands(m.texts[OwnBands])
	switch {
	case err != nil:
		return ""
	case given == nil:
		return "hold %, tell from, send from, and the clinician; or: waived, and who"
	case given.Waived:
		return "waived by " + given.By
	}
	return delivery.Bands{Target: given.Target, Borderline: given.Borderline, Emergency: given.Emergency}.InWords() + "; by " + given.By
}

package labels

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"lungwort/inventory"
	"lungwort/labels/tag"
	"lungwort/ui/finder"
	"lungwort/ui/work"
)

// Count is how many items are chosen.
func (m *Model) Count() int { return len(m.chosen) }

func (m *Model) isChosen(id string) bool {
	return slices.ContainsFunc(m.chosen, func(i inventory.Item) bool { return string(i.ID) == id })
}

// Toggle chooses an item, or leaves it out.
func (m *Model) Toggle(id string) {
	at := slices.IndexFunc(m.chosen, func(i inventory.Item) bool { return string(i.ID) == id })
	if at >= 0 {
		m.chosen = slices.Delete(m.chosen, at, at+1)
		m.show()
		return
	}
	for _, i := range m.found {
		if string(i.ID) == id {
			m.chosen = append(m.chosen, i)
		}
	}
	m.show()
}

// ChooseShown chooses every item the list shows.
func (m *Model) ChooseShown() {
	for _, i := range m.found {
		if !m.isChosen(string(i.ID)) {
			m.chosen = append(m.chosen, i)
		}
	}
	m.show()
}

// Clear leaves every item out.
func (m *Model) Clear() {
	m.chosen = nil
	m.show()
}

// Scan chooses the item a scan names. It takes what may be a tag or a serial:
// names of people and codes of papers go their ordinary way. Each scan is work
// of its own, so that none drops the one before.
func (m *Model) Scan(text string) bool {
	read, err := tag.Read(text)
	if err == nil && read.Kind == tag.Paper || !strings.ContainsFunc(text, unicode.IsDigit) {
		return false
	}
	work.Ask(m.work, "scan a label "+text, func(ctx context.Context) (inventory.Item, error) {
		return finder.Item(ctx, m.work.Desk, text)
	}, func(i inventory.Item) { m.add(i) })
	return true
}

func (m *Model) add(i inventory.Item) {
	if m.isChosen(string(i.ID)) {
		m.work.Say(finder.Label(i) + " is chosen already.")
		return
	}
	m.chosen = append(m.chosen, i)
	m.work.Say(fmt.Sprintf("%s is chosen, %s.", finder.Label(i), labelCount(len(m.chosen)*m.Copies)))
	m.show()
}

func labelCount(n int) string {
	if n == 1 {
		return "1 label"
	}
	return fmt.Sprintf("%d labels", n)
}

package settings

import (
	"fmt"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
)

// benchSteps is the setting of what the bench looks at on a kind of thing.
func benchSteps(kind inventory.Kind) value {
	return wordList("bench."+string(kind), "Bench: "+string(kind),
		func(p delivery.Programme) []string { return p.BenchSteps(kind) },
		func(p *delivery.Programme, list []string) { p.Bench = with(p.Bench, kind, list) })
}

// smallParts is the setting of what goes along with a kind of thing.
func smallParts(kind inventory.Kind) value {
	return wordList("parts."+string(kind), "Goes along with a "+string(kind),
		func(p delivery.Programme) []string { return p.PartsOf(kind) },
		func(p *delivery.Programme, list []string) { p.Parts = with(p.Parts, kind, list) })
}

// with returns lists by kind with one of them changed; what is in force keeps
// its own.
func with(lists map[inventory.Kind][]string, kind inventory.Kind, list []string) map[inventory.Kind][]string {
	changed := map[inventory.Kind][]string{kind: list}
	for other, of := range lists {
		if other != kind {
			changed[other] = of
		}
	}
	return changed
}

// wordList is a setting of several words, commas between. Set to what comes with
// the program it is left as it is.
func wordList(key, label string, get func(delivery.Programme) []string, set func(*delivery.Programme, []string)) value {
	return value{key, label,
		func(p delivery.Programme) string { return strings.Join(get(p), ", ") },
		func(p *delivery.Programme, text string) error {
			list := []string{}
			for _, word := range parts(text) {
				list = append(list, strings.TrimSpace(word))
			}
			if len(list) > 20 {
				return fmt.Errorf("%d are more than anybody looks at: write the ones that matter", len(list))
			}
			if strings.Join(list, ", ") != strings.Join(get(*p), ", ") {
				set(p, list)
			}
			return nil
		}}
}

// kindKeys are the keys of a setting for each kind.
func kindKeys(prefix string, kinds ...inventory.Kind) []string {
	keys := make([]string, len(kinds))
	for i, k := range kinds {
		keys[i] = prefix + string(k)
	}
	return keys
}

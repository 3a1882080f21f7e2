package console

import (
	"context"
	"flag"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/finder"
)

// field is one field of an act as commands name it, read from the act's
// struct tags.
type field struct {
	name     string
	help     string
	optional bool
	index    int
}

// fieldsOf lists the fields of a struct that carry an act tag.
func fieldsOf(t reflect.Type) []field {
	var fields []field
	for i := range t.NumField() {
		name, tagged := t.Field(i).Tag.Lookup("act")
		if !tagged {
			continue
		}
		name, option, _ := strings.Cut(name, ",")
		fields = append(fields, field{name, t.Field(i).Tag.Get("help"), option == "optional", i})
	}
	return fields
}

// filler fills the fields of an act from flags, looking up what names items
// and persons on a desk.
type filler struct {
	ctx  context.Context
	desk *store.Desk
}

// fill parses args into the tagged fields of the struct that into points to.
func (f filler) fill(fs *flag.FlagSet, args []string, into any) error {
	v := reflect.ValueOf(into).Elem()
	fields := fieldsOf(v.Type())
	given := make(map[string]*string, len(fields))
	for _, fd := range fields {
		if v.Field(fd.index).Kind() == reflect.Bool {
			fs.BoolVar(v.Field(fd.index).Addr().Interface().(*bool), fd.name, false, fd.help)
			continue
		}
		given[fd.name] = fs.String(fd.name, "", fd.help)
	}
	if err := parse(fs, args, false); err != nil {
		return err
	}
	for _, fd := range fields {
		text, isText := given[fd.name]
		switch {
		case !isText:
		case *text == "" && !fd.optional:
			return misuse{fmt.Sprintf("--%s is missing: %s", fd.name, fd.help)}
		case *text != "":
			if err := f.set(v.Field(fd.index), *text); err != nil {
				return fmt.Errorf("--%s: %w", fd.name, err)
			}
		}
	}
	return nil
}

// set parses text into one field by its type.
func (f filler) set(into reflect.Value, text string) error {
	if into.Kind() == reflect.Pointer {
		into.Set(reflect.New(into.Type().Elem()))
		into = into.Elem()
	}
	switch target := into.Addr().Interface().(type) {
	case *inventory.ItemID:
		return f.item(target, text)
	case *[]inventory.ItemID:
		return f.items(target, text)
	case *inventory.PersonID:
		return assign(target, text, func(s string) (inventory.PersonID, error) { return f.desk.Person(f.ctx, s) })
	case *gas.Pressure:
		return assign(target, text, gas.ParsePressure)
	case *[]gas.Pressure:
		return eachOf(target, text, gas.ParsePressure)
	case *gas.Litres:
		return assign(target, text, gas.ParseLitres)
	case *gas.Kilograms:
		return assign(target, text, gas.ParseKilograms)
	case *gas.Millilitres:
		return assign(target, text, gas.ParseMillilitres)
	case *gas.Celsius:
		return assign(target, text, gas.ParseTemperature)
	case *gas.Flow:
		return assign(target, text, gas.ParseFlow)
	case *time.Time:
		return assign(target, text, parseTime)
	case *time.Duration:
		return assign(target, text, gas.ParseDuration)
	case *int:
		return assign(target, text, strconv.Atoi)
	case *float64:
		return assign(target, text, number)
	case *inventory.FactID:
		return assign(target, text, func(s string) (inventory.FactID, error) {
			n, err := strconv.ParseInt(s, 10, 64)
			return inventory.FactID(n), err
		})
	case *[]string:
		return eachOf(target, text, func(s string) (string, error) { return s, nil })
	case *asking:
		return assign(target, text, parseAsking)
	case *delivery.Mains:
		return assign(target, text, parseMains)
	}
	if into.Kind() == reflect.String {
		into.SetString(text)
		return nil
	}
	return fmt.Errorf("a %s can't be given on a command line", into.Type())
}

// number reads a number there is; strconv knows some there are not.
func number(text string) (float64, error) {
	n, err := strconv.ParseFloat(text, 64)
	if err == nil && (math.IsNaN(n) || math.IsInf(n, 0)) {
		err = fmt.Errorf("%q is no number", text)
	}
	return n, err
}

func assign[T any](into *T, text string, read func(string) (T, error)) (err error) {
	*into, err = read(text)
	return err
}

func eachOf[T any](into *[]T, text string, read func(string) (T, error)) error {
	for part := range strings.SplitSeq(text, ",") {
		v, err := read(strings.TrimSpace(part))
		if err != nil {
			return err
		}
		*into = append(*into, v)
	}
	return nil
}

func (f filler) item(into *inventory.ItemID, text string) error {
	item, err := finder.Item(f.ctx, f.desk, text)
	*into = item.ID
	return err
}

func (f filler) items(into *[]inventory.ItemID, text string) error {
	return eachOf(into, text, func(s string) (inventory.ItemID, error) {
		item, err := finder.Item(f.ctx, f.desk, s)
		return item.ID, err
	})
}

func parseMains(text string) (delivery.Mains, error) {
	for _, m := range []delivery.Mains{delivery.MainsYes, delivery.MainsPrepaid, delivery.MainsNo} {
		if text == string(m) {
			return m, nil
		}
	}
	return "", fmt.Errorf("%q is not %q, %q or %q", text, delivery.MainsYes, delivery.MainsPrepaid, delivery.MainsNo)
}

// asking is the answer to something asked at a home: yes, no, or not asked.
type asking string

func parseAsking(text string) (asking, error) {
	if text != "yes" && text != "no" {
		return "", fmt.Errorf("%q is not yes or no", text)
	}
	return asking(text), nil
}

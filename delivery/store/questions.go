package store

import (
	"context"
	"slices"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Questions returns what the facts leave open, the first due first. With all,
// those already answered too.
func (d *Desk) Questions(ctx context.Context, all bool) (list []delivery.Inquiry, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		for _, part := range []func(*book.Tx, bool) ([]delivery.Inquiry, error){d.aboutItems, d.aboutPersons, d.aboutTwins} {
			found, err := part(tx, all)
			if err != nil {
				return err
			}
			list = append(list, found...)
		}
		for i := range list {
			if err := d.evidence(tx, &list[i]); err != nil {
				return err
			}
		}
		return nil
	})
	delivery.ByDue(list)
	return list, err
}

// OpenQuestions returns how many questions wait for an answer.
func (d *Desk) OpenQuestions(ctx context.Context) (n int, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		twins, err := d.aboutTwins(tx, false)
		if err != nil {
			return err
		}
		err = tx.QueryRow(`
			SELECT (SELECT COALESCE(sum(asks), 0) FROM item_now WHERE asks > 0) + (SELECT COALESCE(sum(asks), 0) FROM person_now WHERE asks > 0)`).Scan(&n)
		n += len(twins)
		return err
	})
	return n, err
}

func (d *Desk) aboutItems(tx *book.Tx, all bool) (list []delivery.Inquiry, err error) {
	found, err := book.List(tx, derived[inventory.Item], `SELECT body FROM item_now WHERE `+asking(all)+` ORDER BY item_id`)
	for _, item := range found {
		for _, q := range item.Questions {
			if all || q.Answer == nil {
				list = append(list, delivery.Inquiry{Question: q, Item: &item})
			}
		}
	}
	return list, err
}

func (d *Desk) aboutPersons(tx *book.Tx, all bool) (list []delivery.Inquiry, err error) {
	found, err := book.List(tx, seenCare(tx), `SELECT body FROM person_now WHERE `+asking(all)+` ORDER BY person_id`)
	for _, c := range found {
		for _, q := range c.Questions {
			if all || q.Answer == nil {
				q.Person = c.Person
				list = append(list, delivery.Inquiry{Question: q})
			}
		}
	}
	return list, err
}

func asking(all bool) string {
	if all {
		return "1 = 1"
	}
	return "asks > 0"
}

// evidence adds the persons and the facts a question is about.
func (d *Desk) evidence(tx *book.Tx, q *delivery.Inquiry) error {
	if q.Person == nil && q.Question.Person != "" {
		who, err := person(tx, q.Question.Person)
		if err != nil {
			return err
		}
		q.Person = &who
	}
	for _, id := range q.Evidence {
		f, err := items.Fact(tx, d.words, id)
		if err != nil {
			return err
		}
		q.Facts = append(q.Facts, f)
	}
	q.Facts = sightOf(tx).facts(inventory.InOrder(q.Facts))
	return d.because(tx, q)
}

// because adds what speaks for each answer to a question about an hours meter:
// the repairs between, and the machines whose own meter fits.
func (d *Desk) because(tx *book.Tx, q *delivery.Inquiry) error {
	if q.Item == nil || q.Clash != inventory.HoursDown {
		return nil
	}
	history, err := items.Facts(tx, d.words, items.About{Item: q.Item.ID})
	if err != nil {
		return err
	}
	meter, is := delivery.MeterOf(*q, history)
	if !is {
		return nil
	}
	all, _, err := items.Items(tx, items.Filter{Kind: q.Item.Spec.Kind})
	if err != nil {
		return err
	}
	meter.Beside = make(map[inventory.ItemID]bool)
	for _, other := range all {
		if other.ID == q.Item.ID {
			continue
		}
		meter.Others = append(meter.Others, other)
		meter.Beside[other.ID] = other.Place == q.Item.Place || other.Person != "" && other.Person == q.Item.Person
	}
	q.Because = meter.Because()
	return nil
}

// aboutTwins asks about each two records that may be one person.
func (d *Desk) aboutTwins(tx *book.Tx, all bool) ([]delivery.Inquiry, error) {
	everybody, err := book.List(tx, seenPerson(tx), `
		SELECT identity.body FROM identity JOIN person_now ON person_now.person_id = identity.id
		WHERE person_now.phase <> $1
		ORDER BY identity.id`, string(delivery.Joined))
	if err != nil {
		return nil, err
	}
	var list []delivery.Inquiry
	for pair, why := range delivery.TwinsOf(everybody) {
		q, err := d.twin(tx, pair, why)
		if err != nil {
			return nil, err
		}
		if all || q.Answer == nil {
			list = append(list, q)
		}
	}
	return list, nil
}

// twin returns the question about two records. It opened when the second of
// them came into the book.
func (d *Desk) twin(tx *book.Tx, pair [2]delivery.Person, why string) (delivery.Inquiry, error) {
	q := delivery.Inquiry{Person: &pair[0], Other: &pair[1], Question: inventory.Question{
		Key: delivery.TwinKey(pair[0].ID, pair[1].ID), Clash: delivery.OnePerson, Says: why + " under two records", Person: pair[0].ID,
	}}
	c, err := care(tx, pair[0].ID)
	if err != nil {
		return q, err
	}
	q.Answer = c.Answers[q.Key]
	for _, p := range pair {
		facts, err := items.Facts(tx, d.words, items.About{Person: p.ID})
		if err != nil {
			return q, err
		}
		i := slices.IndexFunc(facts, func(f inventory.Fact) bool { _, is := f.Statement.(*delivery.Registered); return is })
		if i < 0 {
			continue
		}
		q.Evidence = append(q.Evidence, facts[i].ID)
		if opened := facts[i].Recorded.In(facts[i].Happened.Location()); opened.After(q.Opened) {
			q.Opened = opened
		}
	}
	return q, nil
}

// openTwins returns the persons who may be the same as one and were not told
// apart yet.
func openTwins(tx *book.Tx, id inventory.PersonID) ([]delivery.Person, error) {
	one, err := person(tx, id)
	if err != nil {
		return nil, err
	}
	own, err := care(tx, id)
	if err != nil {
		return nil, err
	}
	others, err := book.List(tx, seenPerson(tx), `
		SELECT identity.body FROM identity JOIN person_now ON person_now.person_id = identity.id
		WHERE person_now.phase <> $1 AND identity.id <> $2 AND identity.id IN (
		    SELECT id FROM identity WHERE name_key = $3 AND name_key <> ''
		    UNION
		    SELECT id FROM identity WHERE record_key = $4 AND record_key <> '')
		ORDER BY identity.id`, string(delivery.Joined), string(id), delivery.NameKey(one.Family), delivery.RecordKey(one.Record))
	return slices.DeleteFunc(others, func(p delivery.Person) bool {
		_, may := delivery.MaybeOne(one, p)
		return !may || own.Answers[delivery.TwinKey(id, p.ID)] != nil
	}), err
}

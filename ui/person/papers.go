package person

import (
	"context"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/ui/ask"
	"lungwort/ui/work"
)

// gasSheet is the paper for the desk rather than the home.
const gasSheet = "gas"

// PaperForm prints a paper for this person: which one, and in which language.
func (m *Model) PaperForm() ask.Form {
	papers := make([]ask.Option, len(paperwork.HomePapers), len(paperwork.HomePapers)+1)
	for i, p := range paperwork.HomePapers {
		papers[i] = ask.Option{Value: p.ID, Label: p.Name}
	}
	papers = append(papers, ask.Option{Value: gasSheet, Label: "Gas: chart and table"})
	own := filepath.Join(m.work.Dir, paperwork.TongueDir)
	all, err := paperwork.Tongues(own)
	form := ask.Form{Title: "Print", Button: "Print"}
	if err != nil {
		form.Before = err.Error()
		form.Submit = func(_ ask.Answers, closed func(error)) ask.Wrong {
			closed(err)
			return nil
		}
		return form
	}
	languages := make([]ask.Option, len(all))
	for i, t := range all {
		languages[i] = ask.Option{Value: t.Name, Label: t.Name}
	}
	spoken, note := paperwork.SpokenBy(all, m.page.Person.Language)
	form.Before = note
	form.Fields = []ask.Field{
		{Key: "paper", Label: "Paper", Kind: ask.Pick, Options: papers, Value: papers[0].Value},
		{Key: "language", Label: "Language", Kind: ask.Pick, Options: languages, Value: spoken.Name, Hint: "more from files in " + own},
	}
	form.Submit = func(a ask.Answers, closed func(error)) ask.Wrong {
		closed(nil)
		if a.Text("paper") == gasSheet {
			m.PrintGas()
			return nil
		}
		m.PrintPaper(a.Text("paper"), a.Text("language"))
		return nil
	}
	return form
}

// PrintPaper makes a paper for this person and shows it.
func (m *Model) PrintPaper(id, language string) {
	now, asked := m.work.Now(), paperwork.Asked{Person: m.id, By: m.work.By}
	type made struct{ file, note string }
	work.Ask(m.work, "person paper", func(ctx context.Context) (p made, err error) {
		clerk, err := paperwork.NewClerk(ctx, m.work.Desk, now)
		if err != nil {
			return p, err
		}
		p.file, p.note, err = clerk.SaveHomePaper(ctx, m.work.Dir, id, asked, language)
		return p, err
	}, func(p made) {
		if p.note != "" {
			m.work.Say(p.note)
		}
		m.work.Print(p.file)
	})
}

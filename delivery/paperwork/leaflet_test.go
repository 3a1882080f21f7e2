package paperwork_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/tongue"
)

func programmeOf() delivery.Programme {
	p := delivery.NewProgramme()
	p.Emergency, p.Phone = "555-0100", "555-0110"
	p.Clinician = []delivery.Contact{{Name: "Dr Osk Thorne", Role: "clinician", Phone: "555-0112"}}
	return p
}

func homeOnTwo() store.PersonPage {
	return store.PersonPage{
		Person: delivery.Person{ID: "p00001", Family: "Achterberg", Given: "Ines", Language: "Spanish"},
		Care: delivery.Care{
			Order:     &delivery.Ordered{Rest: 2, Exertion: 3.5, Hours: 24},
			Discharge: &delivery.Discharged{Supplies: []inventory.Handful{{Supply: "cannula", Count: 2}, {Supply: "swivel connector", Count: 1}, {Supply: "carry bag", Count: 1}}},
		},
		Kit: []inventory.Item{
			{ID: "i00001", Tag: 201, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-20117"}},
			{ID: "i00002", Tag: 440, Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: "CN00440"}},
		},
	}
}

func TestLeafletTakesFlowsBandsAndKitFromTheBook(t *testing.T) {
	now := time.Date(2026, 11, 24, 16, 20, 0, 0, time.UTC)
	desk := paperwork.NewDesk(programmeOf(), now)
	watch := delivery.Watch{Flow: 2, Forecast: depletion.Forecast{Known: true, CoverLow: 250 * time.Minute}}
	l := desk.Leaflet(homeOnTwo(), watch, tongue.Spanish())
	assert.Equal(t, [3]string{"2", "3.5", ""}, [3]string{l.Rest, l.Exertion, l.Asleep})
	assert.Equal(t, [3]string{"92", "3", "4"}, [3]string{l.Target, l.Borderline, l.High}, "the programme's bands")
	assert.Equal(t, [2]string{"4 h 10 min", "2"}, [2]string{l.Lasts, l.LastsAt})
	assert.Contains(t, l.Code, "LEAFLET.P00001")
	var kit []string
	for _, k := range l.Kit {
		kit = append(kit, k.Key+"|"+k.More+"|"+k.Serial)
	}
	assert.Equal(t, []string{"cylinder|US-E|E-20117", "concentrator|5 L/min|CN00440", "cannula||", "connector||", "|carry bag|"}, kit)

	high := homeOnTwo()
	high.Care.Order.Rest = 6
	l = desk.Leaflet(high, delivery.Watch{}, tongue.English())
	assert.Empty(t, l.Borderline+l.High, "an order above the bands needs the clinician's own: no number is better than a wrong one")
	assert.Empty(t, l.Lasts, "nobody knows how long the gas lasts")
}

func TestTonguesComeFromFilesAndReplaceOurs(t *testing.T) {
	dir := t.TempDir()
	english, err := tongue.Template()
	require.NoError(t, err)
	write := func(file, name, more string) {
		text := strings.Replace(string(english), "language = English\nalso = en, eng", "language = "+name+"\n"+more, 1)
		require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(text), 0o600))
	}
	write("pt.txt", "Português", "also = Portuguese, pt")
	write("es.txt", "Español", "also = Spanish, es\nreviewed = R. Vell, 2 Nov 2026")
	all, err := paperwork.Tongues(dir)
	require.NoError(t, err)
	require.Len(t, all, 3)
	for name, want := range map[string]string{"": "English", "Portuguese": "Português", "spanish": "Español", "EN": "English"} {
		got, err := paperwork.ChooseTongue(all, name)
		require.NoError(t, err)
		assert.Equal(t, want, got.Name)
	}
	spanish, err := paperwork.ChooseTongue(all, "es")
	require.NoError(t, err)
	assert.True(t, spanish.Approved(), "the programme's approved file takes the place of ours")
	_, err = paperwork.ChooseTongue(all, "Wolof")
	assert.ErrorContains(t, err, "no papers in Wolof, only in English, Español, Português")

	require.NoError(t, os.WriteFile(filepath.Join(dir, "fr.txt"), []byte("language = Français\ntitle = x\n"), 0o600))
	_, err = paperwork.Tongues(dir)
	assert.ErrorContains(t, err, "fr.txt: ")
	assert.ErrorContains(t, err, "lacks back.1")

	none, err := paperwork.Tongues(filepath.Join(dir, "not there"))
	require.NoError(t, err)
	assert.Len(t, none, 2)
}

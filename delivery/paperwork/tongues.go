package paperwork

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"lungwort/inventory/refusal"
	"lungwort/labels/tongue"
)

// TongueDir is the folder, within that of the papers, of the programme's own
// language files.
const TongueDir = "languages"

// Tongues returns the languages papers can speak: English, Spanish, and those
// of the files ending in .txt in a folder. A file replaces a language of the
// same name, so that an approved translation takes the place of ours. A folder
// that is not there holds none; no folder, no files.
func Tongues(dir string) ([]tongue.Tongue, error) {
	all := []tongue.Tongue{tongue.English(), tongue.Spanish()}
	if dir == "" {
		return all, nil
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.txt"))
	if err != nil {
		return nil, err
	}
	for _, path := range files {
		own, err := readTongue(path)
		if err != nil {
			return nil, err
		}
		all = with(all, own)
	}
	return all, nil
}

func readTongue(path string) (tongue.Tongue, error) {
	file, err := os.Open(path)
	if err != nil {
		return tongue.Tongue{}, refusal.New(refusal.NotFound, fmt.Sprintf("The language file %s can't be read.", filepath.Base(path)),
			"Close it in other programs, or take it out of the folder.").Because(err)
	}
	defer file.Close()
	own, err := tongue.Read(file)
	if err != nil {
		return own, refusal.New(refusal.Invalid, fmt.Sprintf("%s: %v", filepath.Base(path), err), "").Because(err)
	}
	return own, nil
}

func with(all []tongue.Tongue, own tongue.Tongue) []tongue.Tongue {
	for i := range all {
		if all[i].Name == own.Name {
			all[i] = own
			return all
		}
	}
	return append(all, own)
}

// ChooseTongue returns the language that goes by a name; no name is English.
func ChooseTongue(all []tongue.Tongue, name string) (tongue.Tongue, error) {
	if strings.TrimSpace(name) == "" {
		return tongue.English(), nil
	}
	var names []string
	for _, t := range all {
		if t.Goes(name) {
			return t, nil
		}
		names = append(names, t.Name)
	}
	return tongue.Tongue{}, refusal.New(refusal.NotFound,
		fmt.Sprintf("There are no papers in %s, only in %s.", strings.TrimSpace(name), strings.Join(names, ", ")),
		"Choose one of these, with an interpreter; or have the English file translated, approved, and put into the folder “"+TongueDir+"” beside the papers.")
}

// SpokenBy returns the language of a person, or English and a word on why.
func SpokenBy(all []tongue.Tongue, language string) (t tongue.Tongue, note string) {
	t, err := ChooseTongue(all, language)
	if err != nil {
		return tongue.English(), fmt.Sprintf("No papers in %s: it is in English; go through it with an interpreter.", strings.TrimSpace(language))
	}
	if !t.Approved() {
		note = fmt.Sprintf("Nobody has approved the papers in %s yet: a qualified reviewer must, before they are used.", t.Name)
	}
	return t, note
}

// DepotTongue returns the language of tags and slips: the one that is named, else
// that of the settings, with a word where nobody has approved it.
func (c Clerk) DepotTongue(named, folder string) (t tongue.Tongue, note string, err error) {
	all, err := Tongues(folder)
	if err != nil {
		return t, "", err
	}
	t, err = ChooseTongue(all, cmp.Or(named, c.Programme.DepotLanguage))
	if err == nil {
		t, note = SpokenBy(all, t.Name)
	}
	return t, note, err
}

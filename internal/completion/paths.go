package completion

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// mostEntries bounds what is read of one folder.
const mostEntries = 5000

// rigFile is the file that makes a folder a rig.
const rigFile = "rig.yaml"

// entry is a file or folder under the name a person types.
type entry struct {
	word   string // as typed, a folder with a stroke at its end
	real   string // for the file system
	folder bool
}

// paths lists files and folders that begin like typed. For a rig the folders that
// hold one, or hold a folder that does, come alone; where there are none, any
// folder, so that a person can go down.
func paths(typed, kind string) []Candidate {
	var list, rigs []Candidate
	for _, e := range entries(typed) {
		switch {
		case e.folder && kind == kindRig && holdsRig(e.real):
			rigs = append(rigs, Candidate{e.word, "a rig"})
		case e.folder && kind == kindRig && leadsToRig(e.real):
			rigs = append(rigs, Candidate{Word: e.word})
		case kind == kindRig && strings.HasSuffix(e.word, ".yaml"):
			rigs = append(rigs, Candidate{Word: e.word})
		case e.folder || kind == kindFile:
			list = append(list, Candidate{Word: e.word})
		}
	}
	if len(rigs) > 0 {
		return rigs
	}
	return list
}

// entries reads the folder that typed stands in. One that cannot be read has none.
func entries(typed string) []entry {
	at := strings.LastIndexByte(typed, '/') + 1
	folder, begin := typed[:at], typed[at:]
	real := expand(folder)
	f, err := os.Open(real)
	if err != nil {
		return nil
	}
	defer f.Close()
	all, _ := f.ReadDir(mostEntries) // as far as it can be read
	slices.SortFunc(all, func(a, b os.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	var list []entry
	for _, one := range all {
		name := one.Name()
		if !strings.HasPrefix(name, begin) || begin == "" && strings.HasPrefix(name, ".") {
			continue
		}
		e := entry{word: folder + name, real: filepath.Join(real, name)}
		if info, err := os.Stat(e.real); err == nil && info.IsDir() {
			e.folder, e.word = true, e.word+"/"
		}
		list = append(list, e)
	}
	return list
}

// expand turns what is typed before the last stroke into a folder's name.
func expand(folder string) string {
	home, err := os.UserHomeDir()
	rest, tilde := strings.CutPrefix(folder, "~/")
	switch {
	case folder == "":
		return "."
	case tilde && err == nil:
		return filepath.Join(home, rest)
	}
	return folder
}

func holdsRig(folder string) bool {
	info, err := os.Stat(filepath.Join(folder, rigFile))
	return err == nil && !info.IsDir()
}

func leadsToRig(folder string) bool {
	f, err := os.Open(folder)
	if err != nil {
		return false
	}
	defer f.Close()
	all, _ := f.ReadDir(mostEntries) // as far as it can be read
	for _, one := range all {
		if one.IsDir() && holdsRig(filepath.Join(folder, one.Name())) {
			return true
		}
	}
	return false
}

package history

import (
	"os"
	"path/filepath"
	"time"
)

// mostVersions are kept one by one; of older ones the first, and the last of each
// day.
const mostVersions = 500

// thin removes the versions that are old and were followed by another on their day.
// What is damaged stays, and so does what cannot be removed.
func thin(rigFile string, all []Version) {
	for _, v := range old(all, mostVersions) {
		if _, err := text(rigFile, v); err == nil {
			os.Remove(filepath.Join(Folder(rigFile), v.Name))
		}
	}
}

// old are the versions, of all in rising number, that need not be kept when so many
// are kept one by one.
func old(all []Version, most int) []Version {
	var gone []Version
	for i := 1; i < len(all)-most; i++ {
		if day(all[i]) == day(all[i+1]) {
			gone = append(gone, all[i])
		}
	}
	return gone
}

func day(v Version) string { return v.Time.Format(time.DateOnly) }

package rig

// Replace saves f in the place of a file that still holds old, whether or not
// old could be read as a rig: the way to mend a damaged file as text. Errors:
// ErrChanged; whatever the disk says.
func (f *File) Replace(old []byte) error {
	f.disk = old
	return f.Save()
}

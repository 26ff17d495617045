package history

// Tidy removes what a writer that was killed half way has left among the versions.
// The caller holds the lock of the rig's folder.
func Tidy(rigFile string) { sweep(Folder(rigFile)) }

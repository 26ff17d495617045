package cli

import (
	"testing"

	"ampstead/examples"
	"ampstead/fit"
	"ampstead/internal/golden"
	"ampstead/picture"
	"ampstead/rig"
)

// The picture in the README is what the program draws.
func TestReadmePicture(t *testing.T) {
	text, err := examples.Read("curlew-draft")
	if err != nil {
		t.Fatal(err)
	}
	file, err := rig.Parse("rig.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	res, err := fit.Run(file.Rig)
	if err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "../../docs/ladder.svg", []byte(picture.Ladder(res, picture.Options{Width: picture.Desk, Standalone: true})))
}

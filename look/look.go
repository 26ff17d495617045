package look

import _ "embed"

// CSS is the shared style sheet.
//
//go:embed look.css
var CSS string

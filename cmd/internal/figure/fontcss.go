package figure

import (
	_ "embed"
	"encoding/base64"
	"fmt"
	"strings"
)

// The two files are subsets of Liberation Sans 2 (Latin, Greek, the signs of the figures), made once
// with pyftsubset and renamed inside, as the licence in fonts/OFL.txt asks of changed versions.
var (
	//go:embed fonts/figures-regular.woff2
	regularWOFF2 []byte
	//go:embed fonts/figures-bold.woff2
	boldWOFF2 []byte
	//go:embed fonts/OFL.txt
	fontLicence string
)

// FontCSS returns the @font-face rules for a page that holds figures: the reader's own Liberation
// Sans or Arial (equally wide) if there is one, else the letters that the rules bring along, about
// 80 kB. Nothing is fetched.
func FontCSS() string {
	var b strings.Builder
	face := func(weight, suffix string, woff []byte) {
		fmt.Fprintf(&b, "@font-face{font-family:\"Liberation Sans\";font-style:normal;font-weight:%s;"+
			"src:local(\"Liberation Sans%s\"),local(\"Arial%s\"),url(data:font/woff2;base64,%s) format(\"woff2\")}\n",
			weight, suffix, suffix, base64.StdEncoding.EncodeToString(woff))
	}
	face("400", "", regularWOFF2)
	face("700", " Bold", boldWOFF2)
	return b.String()
}

// FontLicence returns the licence of the embedded letters (SIL Open Font License 1.1).
func FontLicence() string { return fontLicence }

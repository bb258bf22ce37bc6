package assets

import _ "embed"

// The program's font, in the two weights it uses: Lato 2.0 by Łukasz Dziedzic, SIL Open Font
// License 1.1 (see FontLicence). Its figures are tabular without asking: all are 580/1000 em wide.
var (
	//go:embed font/Lato-Regular.ttf
	FontRegular []byte
	//go:embed font/Lato-Bold.ttf
	FontBold []byte
	//go:embed font/OFL.txt
	FontLicence string
	// FontWider is for paper where FontRegular has no letters: DejaVu Sans 2.37, with Greek, Cyrillic, Armenian, Hebrew, Arabic,
	// Georgian and many signs. Licence of Bitstream Vera and Arev, see FontWiderLicence.
	//
	//go:embed font/DejaVuSans.ttf
	FontWider []byte
	//go:embed font/DejaVu-licence.txt
	FontWiderLicence string
)

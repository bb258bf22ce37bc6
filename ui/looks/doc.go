// Package looks answers one question: what does the program look like? Colours,
// sizes and the theme that carries them to the toolkit: warm neutrals and one
// accent, so that cloth brings the colour. It must not know what is shown.
package looks

// Package scene answers one question: what does a drawing of a layout or a strip
// show, as plain shapes and words?
//
// A Scene is a list of items in millimetres in the frame of package shape (x lengthwise,
// y crosswise and up). Each item has a Style that says what it means; renderers decide on colours,
// line widths and fonts: ui/widgets on the screen, exchange/sheet on paper. Builders take
// outlines and names only, so layouts, strips and records need not be known here.
//
// Open scene.go first (the types), then layout.go and strip.go.
package scene

// Package historyui answers one question: what became of the fabric, and what did it cost? The
// place lists movements page by page, draws yardage, and shows what the shelf is worth, what
// garments cost and what is to be bought; each is printed or written out as it is seen. It must not know
// SQL or other places; it leads to them by routes. Open history.go first, then view.go.
package historyui

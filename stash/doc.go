// Package stash answers one question: what fabric is there, what is free of it,
// and how did it come to be so?
//
// A Fabric is a material; a Cloth is one length or leftover of it; a Purchase
// brings cloth; a Reservation keeps outlines on a cloth for a garment; a Movement
// is one line of history. Records change only inside an Act, which has a sentence
// and can be taken back.
//
// Rules are pure functions from what is there to the lines to append (ledger.go)
// and the records to put; a Store runs them as one act. What must hold after
// every act is in invariant.go; each Store calls it before it commits, and package
// stashtest has the suite that every Store must pass.
//
// The package must not know SQL, files, windows, clocks or randomness: times and
// IDs are passed in. It knows a garment by its ID alone.
//
// Open fabric.go first (fabric and its readings), then cloth.go, ledger.go and
// store.go.
package stash

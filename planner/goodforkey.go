package planner

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// usesEdition is part of every Key. Raise it when the rules of package match or its search
// change, so that what was worked out by the old ones is forgotten.
const usesEdition = 1

// Key is a digest of all that an answer depends on. Two things with one Key get one answer;
// a Key changes when something changes that may change the answer, and only then.
type Key [sha256.Size]byte

// String returns it in hexadecimal digits.
func (k Key) String() string { return hex.EncodeToString(k[:]) }

// ClothKey is the Key of a cloth as it lies, its fabric, what is reserved on it and the
// settings. Names, codes, places, colours and notes are not in it.
func ClothKey(c stash.ClothState, set Settings) Key {
	cloth, fabric := c.Cloth, c.Fabric
	cloth.ID, cloth.FabricID, cloth.CutFrom, cloth.PurchaseID = stash.NoID, stash.NoID, stash.NoID, stash.NoID
	cloth.Code, cloth.Lot, cloth.Place, cloth.Notes = "", "", "", ""
	fabric.ID, fabric.Name, fabric.Colour, fabric.ColourName, fabric.Care, fabric.Supplier, fabric.Notes = stash.NoID, "", "", "", "", "", ""
	fabric.Buy, fabric.BuyFor, fabric.Stitches, fabric.Bench, fabric.Strips, fabric.Tags = 0, "", nil, nil, nil, nil
	var reserved []shape.Ring
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			reserved = append(reserved, p.Outline)
		}
	}
	return digest(cloth, fabric, reserved, choicesOf(set))
}

// choices are the settings that a verdict depends on.
type choices struct {
	Units                                       measure.System
	Clearance, EndLoss, TightLength, TightWidth measure.Length
	Tilt                                        shape.Angle `json:",omitzero"` // so that old keys hold where there is none
	Techniques                                  OwnTechniques
}

func choicesOf(s Settings) choices {
	return choices{s.Units, s.Clearance, s.EndLoss, s.TightLength, s.TightWidth, s.Tilt, s.Techniques}
}

// PatternKey is the Key of what a pattern asks. What it is called, notions, the order of
// work and notes are not in it.
func PatternKey(p pattern.Pattern) Key {
	p.Name, p.Maker, p.Kind, p.Notes, p.Notions, p.Work = "", "", "", "", nil, nil
	return digest(p)
}

func digest(parts ...any) Key {
	b, err := json.Marshal(append([]any{usesEdition}, parts...))
	if err != nil {
		panic(fmt.Sprintf("a record cannot be written as JSON: %v", err)) // they are plain records
	}
	return sha256.Sum256(b)
}

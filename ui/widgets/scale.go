package widgets

// Scale is by how much things grow with the text size in force.
func Scale() float32 { return Scaled(1) }

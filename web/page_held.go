package web

// HeldPage says in plain words what is held about whoever reads it. GET
// /account/held.
type HeldPage struct {
	Frame
	Parts []HeldLine
	Empty []string // parts of which there is nothing
}

// HeldLine is one kind of thing that is held.
type HeldLine struct{ Says, Entries string }

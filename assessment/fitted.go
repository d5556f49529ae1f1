package assessment

// Fitted is which type of each kind of equipment a client has, by kind. What is
// not in it the client does not have.
type Fitted map[string]string

// differs reports whether two are of different types in any of these kinds.
func (f Fitted) differs(g Fitted, kinds []string) bool {
	for _, k := range kinds {
		if f[k] != g[k] {
			return true
		}
	}
	return false
}

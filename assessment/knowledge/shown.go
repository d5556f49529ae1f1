package knowledge

import "slices"

// AsShown is what was chosen by the places in which somebody sees the options, as the item
// counts them: what a page sends tells nobody the right order. A place that is not there
// stays what it is, and is refused after. Of Order the options stand in the order that was
// given; of Match there is one for each of the left.
func AsShown(shown, places []int) []int {
	chosen := make([]int, len(places))
	for i, p := range places {
		chosen[i] = -1
		if p >= 1 && p <= len(shown) {
			chosen[i] = shown[p-1]
		}
	}
	return chosen
}

// Places is the other way: where somebody sees what was chosen.
func Places(shown, chosen []int) []int {
	places := make([]int, len(chosen))
	for i, c := range chosen {
		places[i] = slices.Index(shown, c) + 1
	}
	return places
}

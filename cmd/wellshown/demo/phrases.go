package demo

// Secrets are phrases of four unrelated words, so that they can be read out and
// typed. They are printed and guard nothing.

var phraseWords = []string{
	"amber", "anchor", "barley", "basket", "birch", "button", "candle", "canyon", "cedar", "cherry", "clover", "copper",
	"cotton", "cricket", "drizzle", "ember", "feather", "fiddle", "gravel", "hazel", "heron", "juniper", "kettle", "ladder",
	"lantern", "lemon", "linen", "maple", "marble", "meadow", "mitten", "mustard", "nutmeg", "orchard", "paddle", "pebble",
	"pepper", "pillow", "plover", "pocket", "puddle", "quarry", "quilt", "raisin", "ribbon", "rowan", "saddle", "saffron",
	"sandal", "shingle", "spindle", "sparrow", "teapot", "thimble", "timber", "tulip", "turnip", "velvet", "walnut", "whistle",
	"willow", "window", "yarrow", "zipper",
}

// secret is the phrase of whoever has this e-mail address.
func (s *story) secret(email string) string {
	r := s.chance("secret of " + email)
	phrase := ""
	for i, at := range r.Perm(len(phraseWords))[:4] {
		if i > 0 {
			phrase += " "
		}
		phrase += phraseWords[at]
	}
	return phrase
}

package reading

import (
	"regexp"
	"strings"
)

// englishSyllables counts groups of vowels, without those that are written and not
// spoken, and with those that are two in one group. Words that no rule gets right stand
// in a list.
func englishSyllables(word string) int {
	word = strings.NewReplacer("’", "'", "é", "e").Replace(word)
	if owner, ok := strings.CutSuffix(word, "'s"); ok {
		n := englishSyllables(owner)
		if hissing.MatchString(owner) {
			n++
		}
		return n
	}
	word = strings.TrimSuffix(word, "'")
	if n, ok := known[word]; ok {
		return n
	}
	if n, ok := known[strings.TrimSuffix(word, "s")]; ok && strings.HasSuffix(word, "s") {
		return n
	}
	if short, ok := strings.CutSuffix(word, "n't"); ok {
		n := englishSyllables(short)
		if strings.HasSuffix(short, "d") || strings.HasSuffix(short, "s") {
			n++ // didn't, isn't; not can't or aren't
		}
		return n
	}
	word = spelling.Replace(word)
	n := len(vowels.FindAllString(word, -1))
	for _, r := range taken {
		if r.MatchString(word) {
			n--
		}
	}
	for _, r := range added {
		n += len(r.FindAllString(word, -1))
	}
	return n
}

// hissing are words to which 's adds a syllable.
var hissing = regexp.MustCompile(`(?:s|x|z|sh|ch|ce|se|ze|ge)$`)

// spelling takes out letters that are written within a word and not spoken.
var spelling = strings.NewReplacer("guide", "gide", "guidan", "gidan", "guess", "gess", "tongue", "tong", "some", "sum", "every", "evry", "else", "els", "there", "ther", "where", "wher", "here", "her", "time", "tim", "home", "hom", "fore", "for", "life", "lif", "base", "bas", "care", "car")

var vowels = regexp.MustCompile(`[aeiouy]+`)

// taken are endings whose vowel is not spoken.
var taken = patterns(
	`[^aeiouyl]e$`,                                      // tube, take
	`[aeiouy]le$`,                                       // while, whole
	`(?:[^aeiouytdl]|[aeiouy]l|ll)ed$`,                  // closed, changed; not settled
	`(?:[^aeiouyscxzglh]|[aeiouy]l|[^sc]h)es$`,          // tubes, lines
	`[^aeiouyl]e(?:ly|less|ment|ness)$|[^aeiouyl]eful$`, // safely, useless, movement, careful
)

// added are groups in which two vowels are spoken.
var added = patterns(
	`[^tscgx]ia(?:$|[^l])|[^tscgnx]ial`, // diary, material; not special
	`[^tscgx]io(?:[^u]|$)`,              // period; not action
	`[aeiouy]ing`,                       // being, trying
	`[^qg]ua[lr]`,                       // manual
	`eo(?:$|[^u])`,                      // video
	`creat[eio]|react|idea|reali`,
	`thm|sm$`,              // rhythm
	`[^aeiouy]ie(?:r|st)$`, // easier
	`uel$|uid|uit[iy]`,     // fuel, fluid
	`[^tc]ien|iet`,         // client, quiet; not patient
	`[^qg]uer`,             // rescuer
	`[ae]yo[^u]|[ao]yer`,   // surveyor, layer
)

func patterns(all ...string) []*regexp.Regexp {
	compiled := make([]*regexp.Regexp, len(all))
	for i, one := range all {
		compiled[i] = regexp.MustCompile(one)
	}
	return compiled
}

// known are words of ours that the rules miscount.
var known = map[string]int{
	"apnoea": 3, "anyone": 3, "everyone": 3, "area": 3, "ratio": 3, "people": 2, "eye": 1, "being": 2, "breathe": 1, "squeeze": 1, "sleeve": 1, "leave": 1, "awhile": 2,
	"reuse": 2, "reusable": 4, "tracheostomy": 6, "trachea": 3, "caregiver": 3, "business": 2, "centimetre": 4, "hour": 1, "our": 1, "fire": 1, "wire": 1, "tired": 1, "liquid": 2,
	"are": 1, "were": 1, "one": 1, "done": 1, "gone": 1, "the": 1, "be": 1, "he": 1, "she": 1, "we": 1, "me": 1, "coughed": 1, "cooperate": 4, "hygiene": 2, "databases": 4, "preoxygenate": 5,
}

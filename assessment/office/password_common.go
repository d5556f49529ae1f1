package office

import (
	"strings"
	"unicode"
)

// commonWords are what passwords are made of that everybody tries first, alone or
// strung together, with figures and signs around them (from memory of published
// lists of leaked passwords; the last ones are of our trade).
var commonWords = strings.NewReplacer("password", "", "passwort", "", "contraseña", "", "qwertyuiop", "", "qwerty", "", "asdfghjkl", "", "zxcvbnm", "",
	"letmein", "", "welcome", "", "iloveyou", "", "administrator", "", "admin", "", "changeme", "", "secret", "", "sunshine", "", "princess", "",
	"football", "", "baseball", "", "monkey", "", "dragon", "", "superman", "", "trustno", "", "master", "", "login", "", "test", "", "abc", "",
	"wellshown", "", "ventilator", "", "tracheostomy", "", "suction", "", "nursing", "", "nurse", "", "hospital", "", "caregiver", "")

// isCommon reports whether nothing is left of a password without common words,
// figures and signs, or whether it runs along the alphabet or the figures.
func isCommon(password string) bool {
	letters := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return r
		}
		return -1
	}, strings.ToLower(password))
	return commonWords.Replace(letters) == "" || runs([]rune(folded(password)))
}

// runs reports whether each sign follows or precedes the one before it, 0 after 9
// and a after z among them.
func runs(signs []rune) bool {
	for _, step := range []int{1, -1} {
		along := true
		for i := 1; i < len(signs) && along; i++ {
			d := int(signs[i]) - int(signs[i-1])
			along = d == step || d == -9*step || d == -25*step
		}
		if along {
			return true
		}
	}
	return false
}

// repeats reports whether a text is one shorter text again and again.
func repeats(text []rune) bool {
	for unit := 1; unit <= len(text)/2; unit++ {
		same := len(text)%unit == 0
		for i := unit; i < len(text) && same; i++ {
			same = text[i] == text[i-unit]
		}
		if same {
			return true
		}
	}
	return false
}

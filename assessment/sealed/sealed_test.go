package sealed

import (
	"bytes"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"strings"
	"testing"
)

func unhex(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// McGrew and Viega, "The Galois/Counter Mode of Operation (GCM)", appendix B, test
// cases 14 and 16 (256-bit keys), from memory; a wrong memory would not match.
func TestTheCipherOfThePublishedVectors(t *testing.T) {
	for _, c := range []struct{ key, nonce, plain, bound, sealed string }{
		{strings.Repeat("00", 32), strings.Repeat("00", 12), strings.Repeat("00", 16), "",
			"cea7403d4d606b6e074ec5d3baf39d18" + "d0d1c8a799996bf0265b98b5d48ab919"},
		{"feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308", "cafebabefacedbaddecaf888",
			"d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39",
			"feedfacedeadbeeffeedfacedeadbeefabaddad2",
			"522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662" +
				"76fc6ece0f4e1768cddf8853bb2d551b"},
	} {
		k, err := ReadKeys("test " + base64.StdEncoding.EncodeToString(unhex(t, c.key)))
		if err != nil {
			t.Fatal(err)
		}
		got := k.byID["test"].Seal(nil, unhex(t, c.nonce), unhex(t, c.plain), unhex(t, c.bound))
		if hex.EncodeToString(got) != c.sealed {
			t.Errorf("sealed %x, published %s", got, c.sealed)
		}
	}
}

// keys are a file of the named keys, each 32 times the byte of its place.
func keys(t *testing.T, names ...string) *Keys {
	t.Helper()
	var file strings.Builder
	for i, name := range names {
		line, err := NewKey(bytes.NewReader(bytes.Repeat([]byte{byte(i + 1)}, keyBytes)), name)
		if err != nil {
			t.Fatal(err)
		}
		file.WriteString(line)
	}
	k, err := ReadKeys("# a comment\n\n" + file.String())
	if err != nil {
		t.Fatal(err)
	}
	return k
}

var noise = bytes.Repeat([]byte("twelve bytes"), 4)

func TestWhatIsSealedOpensForItsOwnerOnly(t *testing.T) {
	k, own := keys(t, "a"), Bound{"agency", "person", "one-time codes"}
	kept, err := k.Seal(bytes.NewReader(noise), []byte("secret"), own)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := k.Open(kept, own); err != nil || string(got) != "secret" {
		t.Errorf("opened %q, %v", got, err)
	}
	if strings.Contains(kept, "secret") || !k.Newest(kept) {
		t.Errorf("kept as %s", kept)
	}
	for _, other := range []Bound{{"agenc", "yperson", "one-time codes"}, {"other", "person", "one-time codes"}, {"agency", "other", "one-time codes"}, {"agency", "person", "other"}} {
		if got, err := k.Open(kept, other); !errors.Is(err, ErrNotThis) || got != nil {
			t.Errorf("%+v opens it: %q, %v", other, got, err)
		}
	}
}

func TestEveryChangedCharacterIsNoticed(t *testing.T) {
	k, own := keys(t, "a"), Bound{"agency", "person", "purpose"}
	kept, err := k.Seal(bytes.NewReader(noise), []byte("secret"), own)
	if err != nil {
		t.Fatal(err)
	}
	for i := range kept {
		changed := kept[:i] + "~" + kept[i+1:]
		if _, err := k.Open(changed, own); err == nil {
			t.Errorf("changed at %d it still opens", i)
		}
		if _, err := k.Open(kept[:i], own); err == nil {
			t.Errorf("cut off at %d it still opens", i)
		}
	}
}

func TestKeysThatAreAddedLostOrSwapped(t *testing.T) {
	own := Bound{"agency", "person", "purpose"}
	kept, err := keys(t, "a").Seal(bytes.NewReader(noise), []byte("secret"), own)
	if err != nil {
		t.Fatal(err)
	}
	added := keys(t, "a", "b")
	if got, err := added.Open(kept, own); err != nil || string(got) != "secret" || added.Newest(kept) {
		t.Errorf("with a key added: %q, %v, newest %v", got, err, added.Newest(kept))
	}
	if again, err := added.Seal(bytes.NewReader(noise), []byte("secret"), own); err != nil || !strings.HasPrefix(again, "b.") {
		t.Errorf("the last key does not seal: %s, %v", again, err)
	}
	if _, err := keys(t, "b").Open(kept, own); !errors.Is(err, ErrNoKey) {
		t.Errorf("without its key: %v", err)
	}
	if _, err := keys(t, "other", "a").Open(kept, own); !errors.Is(err, ErrNotThis) {
		t.Errorf("with another key under its name: %v", err)
	}
}

func TestKeyFilesThatAreNone(t *testing.T) {
	good := base64.StdEncoding.EncodeToString(bytes.Repeat([]byte{7}, keyBytes))
	for name, file := range map[string]string{
		"empty": "", "comments only": "# nothing\n", "no key": "a\n", "short": "a " + base64.StdEncoding.EncodeToString([]byte("short")),
		"not base64": "a " + strings.Repeat("!", 44), "a name with a dot": "a.b " + good, "twice": "a " + good + "\na " + good,
	} {
		if _, err := ReadKeys(file); err == nil || strings.Contains(err.Error(), good) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := KeyFile(bytes.NewReader(nil), "a"); err == nil {
		t.Error("a key was made out of nothing")
	}
	if _, err := NewKey(bytes.NewReader(noise), "two words"); err == nil {
		t.Error("a name of two words was taken")
	}
}

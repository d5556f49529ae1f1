package integration

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

// versionsJob is what browser/versions.mjs is told to do.
type versionsJob struct {
	Chromium string   `json:"chromium"`
	Base     string   `json:"base"`
	Control  string   `json:"control"` // POST /upgrade: from now on another version of the service runs
	Profile  string   `json:"profile"`
	Email    string   `json:"email"`
	Password string   `json:"password"`
	Learner  string   `json:"learner"`
	Observe  string   `json:"observe"`
	Files    []string `json:"files"` // each has Mark in the other version
	Mark     string   `json:"mark"`
}

// otherVersion stands at the end of each file of the other version.
const otherVersion = "another version"

// TestANewVersionNeverReplacesAPageInUse: the service is replaced by another version
// while a sheet is marked. The page goes on as it was, every file of it of one version,
// even where it is loaded anew or opened in a second tab, and even where it asks to be
// replaced; once no sheet is open the new one is offered and taken, whole, and every
// sheet is still there (W3C Service Workers, sections 2.1.2 and 4.1.1).
func TestANewVersionNeverReplacesAPageInUse(t *testing.T) {
	tools := browserTools(t)
	w := ward.NewAt(t, time.Now().Add(-24*time.Hour))
	shortSkill(t, w)
	learner := w.Nurse("Ebba Marsh")
	w.Join(learner, w.Client("7K", "Mira"))
	w.At(time.Now())
	service := run(t, w)
	files, other := anotherVersion(t)
	job := versionsJob{Chromium: tools.Chromium, Base: service.Base, Control: replacing(t, service, other), Profile: t.TempDir(), Email: w.Email(w.Educators[0]), Password: ward.Password,
		Learner: learner.Name, Observe: "Observe Tidy the bag, " + learner.Name, Files: files, Mark: otherVersion}
	var came struct {
		Sheets []bedsideSheet
		Marks  map[int]assessment.Mark // as they were shown as kept
	}
	tools.Play(t, "versions.mjs", job, &came)
	if len(came.Sheets) != 1 || came.Sheets[0].State != "sent" {
		t.Fatalf("kept %+v", came.Sheets)
	}
	w.At(time.Now())
	record, err := w.Office.ReadRecord(t.Context(), w.Educators[0], assessment.DemonstrationID(came.Sheets[0].ID))
	if err != nil {
		t.Fatal(err)
	}
	for step, mark := range came.Marks {
		if record.Entries[step].Mark != mark {
			t.Errorf("step %d was shown as %s and is recorded as %q", step, mark, record.Entries[step].Mark)
		}
	}
	if len(came.Marks) != 4 {
		t.Errorf("marks at four steps were shown as kept: %v", came.Marks)
	}
}

// replacing lets a script have another version of the service run from now on.
func replacing(t *testing.T, service *running, other string) string {
	t.Helper()
	mux := http.NewServeMux()
	mux.HandleFunc("POST /upgrade", func(http.ResponseWriter, *http.Request) {
		service.Kill()
		service.path = other
		service.Start()
	})
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	return server.URL
}

// anotherVersion builds the service with every script, style sheet and document of the
// bedside changed, and gives their names besides.
func anotherVersion(t *testing.T) ([]string, string) {
	t.Helper()
	folder, err := filepath.Abs(filepath.Join("..", "web", "static", "bedside"))
	if err != nil {
		t.Fatal(err)
	}
	marks := map[string]string{".js": "globalThis.ofAnotherVersion = (globalThis.ofAnotherVersion ?? 0) + 1; \"" + otherVersion + "\";\n", ".css": "/* " + otherVersion + " */\n", ".html": "<!-- " + otherVersion + " -->\n"}
	var names []string
	overlay := struct{ Replace map[string]string }{map[string]string{}}
	dir := t.TempDir()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		mark, text := marks[filepath.Ext(e.Name())]
		if !text {
			continue
		}
		body, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		changed := filepath.Join(dir, e.Name())
		if err := os.WriteFile(changed, bytes.Join([][]byte{body, []byte(mark)}, nil), 0o600); err != nil {
			t.Fatal(err)
		}
		overlay.Replace[filepath.Join(folder, e.Name())] = changed
		names = append(names, e.Name())
	}
	list, err := json.Marshal(overlay)
	if err != nil {
		t.Fatal(err)
	}
	told := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(told, list, 0o600); err != nil {
		t.Fatal(err)
	}
	return names, built(t, "-overlay", told)
}

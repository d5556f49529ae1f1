package main

import (
	"io"
	"net"
	"strconv"
	"strings"
	"testing"

	"wellshown/assessment/postgres"
)

// 192.0.2.1 belongs to documents alone (RFC 5737), so it is no machine's.
func TestListenSaysWhichSettingToLookAt(t *testing.T) {
	other, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	taken := other.Addr().(*net.TCPAddr).Port
	_, err = config{Host: "127.0.0.1", Port: taken}.listen()
	if err == nil || !strings.Contains(err.Error(), "PORT") || strings.Contains(err.Error(), "HOST") {
		t.Errorf("a port that is taken: %v", err)
	}
	_, err = config{Host: "192.0.2.1", Port: taken}.listen()
	if err == nil || !strings.Contains(err.Error(), "HOST") || strings.Contains(err.Error(), "PORT") {
		t.Errorf("no address of this machine: %v", err)
	}
}

// Nobody waits for the demo to learn that its port is taken.
func TestUpLooksForItsPortBeforeAnythingElse(t *testing.T) {
	database := emptyDatabase(t)
	other, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	t.Setenv("PORT", strconv.Itoa(other.Addr().(*net.TCPAddr).Port))
	if err := runUp(t.Context(), nil, io.Discard); err == nil || !strings.Contains(err.Error(), "PORT") {
		t.Errorf("it says %v", err)
	}
	db, err := postgres.Open(t.Context(), database.ServiceURL)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if there, err := db.AtDoor().Agencies(t.Context()); err != nil || len(there) > 0 {
		t.Errorf("%d agencies were made before, %v", len(there), err)
	}
}

func TestServingNamesBothAddresses(t *testing.T) {
	at := &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8104}
	if says := (config{BaseURL: "http://127.0.0.1:8104"}).serving(at); says != "Serving on http://127.0.0.1:8104 until stopped." {
		t.Error(says)
	}
	if says := (config{BaseURL: "https://shown.example"}).serving(at); !strings.Contains(says, at.String()) || !strings.Contains(says, "https://shown.example") {
		t.Error(says)
	}
}

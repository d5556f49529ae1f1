package main

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A service seals and cleans unasked.
func TestKeepHouse(t *testing.T) {
	w := ward.New(t)
	if _, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(w.Coordinator), Password: ward.Password}); err != nil {
		t.Fatal(err)
	}
	w.Pass(8 * 24 * time.Hour)
	owner, err := pgx.Connect(t.Context(), w.DB.OwnerURL)
	if err != nil {
		t.Fatal(err)
	}
	defer owner.Close(context.Background())
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	keepHouse(ctx, w.Office)
	for left := 1; left > 0; {
		err := owner.QueryRow(t.Context(), `select (select count(*) from session) + (select count(*) from sign_in_try) + (select count(*) from ledger_waiting)`).Scan(&left)
		if err != nil {
			t.Fatalf("%v, with %d left", err, left)
		}
	}
}

// What goes wrong is said once until it has gone right, and tried again.
func TestKeepDoingSaysTroubleOnce(t *testing.T) {
	var log bytes.Buffer
	before := slog.Default()
	slog.SetDefault(slog.New(slog.NewTextHandler(&log, nil)))
	defer slog.SetDefault(before)
	ctx, stop := context.WithCancel(t.Context())
	times := 0
	keepDoing(ctx, time.Microsecond, "nothing is done", func(context.Context) error {
		times++
		switch times {
		case 3:
			return nil
		case 5:
			stop()
		}
		return errors.New("the door is shut")
	})
	if n := strings.Count(log.String(), "nothing is done"); times != 5 || n != 2 {
		t.Errorf("done %d times, said %d times: %s", times, n, log.String())
	}
}

package testdb

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/testcontainers/testcontainers-go"
	"github.com/testcontainers/testcontainers-go/wait"
)

// errNoDocker says that no Docker daemon answers.
var errNoDocker = errors.New("no Docker daemon answers")

const (
	containerUser     = "wellshown_owner"
	containerPassword = "for tests only"
	containerLimit    = 2 * time.Minute // includes fetching the image
)

// startContainer runs PostgreSQL in a container for the rest of the process. The image must understand POSTGRES_USER,
// POSTGRES_PASSWORD and POSTGRES_DB and log its readiness twice: once for setting itself up, once for good.
func startContainer(ctx context.Context) (string, error) {
	if err := dockerAnswers(ctx); err != nil {
		return "", err
	}
	image := os.Getenv("WELLSHOWN_TEST_IMAGE")
	if image == "" {
		image = "postgres:15"
	}
	c, err := testcontainers.Run(ctx, image,
		testcontainers.WithEnv(map[string]string{
			"POSTGRES_USER": containerUser, "POSTGRES_PASSWORD": containerPassword, "POSTGRES_DB": "postgres"}),
		testcontainers.WithCmd("postgres", "-c", "fsync=off", "-c", "synchronous_commit=off",
			"-c", "full_page_writes=off", "-c", "max_connections=300"),
		testcontainers.WithExposedPorts("5432/tcp"),
		testcontainers.WithWaitStrategyAndDeadline(containerLimit,
			wait.ForLog("database system is ready to accept connections").WithOccurrence(2)))
	if c != nil {
		removeAfterUs(c.GetContainerID())
	}
	if err != nil {
		return "", fmt.Errorf("run %s in a container: %w", image, err)
	}
	at, err := c.PortEndpoint(ctx, "5432/tcp", "")
	if err != nil {
		return "", fmt.Errorf("find the container's port: %w", err)
	}
	u := url.URL{Scheme: "postgres", User: url.UserPassword(containerUser, containerPassword), Host: at,
		Path: "/postgres", RawQuery: "sslmode=disable"}
	return u.String(), answers(ctx, u.String())
}

// dockerAnswers asks the daemon for its health. The library panics where it finds no daemon to ask.
func dockerAnswers(ctx context.Context) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%w: %v", errNoDocker, r)
		}
	}()
	provider, err := testcontainers.ProviderDocker.GetProvider()
	if err != nil {
		return fmt.Errorf("%w: %v", errNoDocker, err)
	}
	defer provider.Close()
	if err := provider.Health(ctx); err != nil {
		return fmt.Errorf("%w: %v", errNoDocker, err)
	}
	return nil
}

// removeAfterUs does what the library's own reaper does elsewhere; that one is an image, which a machine without a
// registry cannot fetch. Failing to is no reason to fail the tests.
func removeAfterUs(id string) {
	if docker, err := exec.LookPath("docker"); err == nil && os.Getenv("TESTCONTAINERS_RYUK_DISABLED") == "true" {
		_ = afterUs(`"`+docker+`" rm -f -v "$1" >/dev/null 2>&1`, id)
	}
}

// answers waits until the published port leads to the server.
func answers(ctx context.Context, serverURL string) error {
	limit, cancel := context.WithTimeout(ctx, 30*time.Second)
	defer cancel()
	for {
		c, err := pgx.Connect(limit, serverURL)
		if err == nil {
			return c.Close(limit)
		}
		select {
		case <-limit.Done():
			return fmt.Errorf("connect to PostgreSQL in the container: %w", err)
		case <-time.After(100 * time.Millisecond):
		}
	}
}

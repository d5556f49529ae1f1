package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"

	"github.com/gin-gonic/gin"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/reports"
	"wellshown/web"
)

func runServe(ctx context.Context, _ []string, out io.Writer) error {
	return withOffice(ctx, func(c config, o *office.Office) error {
		listener, err := c.listen()
		if err != nil {
			return err
		}
		return serve(ctx, c, o, listener, out)
	})
}

// serve answers until it is told to stop, and then finishes what is under way. It
// closes the listener.
func serve(ctx context.Context, c config, o *office.Office, listener net.Listener, out io.Writer) error {
	server := limited(handler(c, o))
	if err := errors.Join(ledgerReady(ctx, c, o), tellLostKeys(ctx, o, out)); err != nil {
		return errors.Join(err, listener.Close())
	}
	keepHouse(ctx, o)
	working, stop := context.WithCancel(ctx)
	defer stop()
	workers := alongside(working, c, o)
	done := make(chan error, 1)
	go func() { done <- server.Serve(listener) }()
	fmt.Fprintln(out, c.serving(listener.Addr()))
	select {
	case err := <-done:
		stop()
		return errors.Join(fmt.Errorf("serve: %w", err), <-workers)
	case err := <-workers: // a service that does not do what it promised stops
		return errors.Join(err, shutDown(server))
	case <-ctx.Done():
		return errors.Join(shutDown(server), <-workers)
	}
}

// shutDown finishes what is under way.
func shutDown(server *http.Server) error {
	wait, cancel := context.WithTimeout(context.Background(), 15*time.Second)
	defer cancel()
	err := server.Shutdown(wait)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close() // what is under way ends now
	}
	if err != nil {
		return fmt.Errorf("stop serving: %w", err)
	}
	return nil
}

// limited is a server that waits for nobody for ever, and reads no head without end.
func limited(h http.Handler) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       20 * time.Second,
		WriteTimeout:      60 * time.Second,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    32 << 10,
	}
}

// serving says where to look: at the address that is listened on, and at the one
// that people type where that is another one.
func (c config) serving(at net.Addr) string {
	here := "http://" + at.String()
	if c.BaseURL == here {
		return fmt.Sprintf("Serving on %s until stopped.", here)
	}
	return fmt.Sprintf("Serving on %s until stopped; people reach it at %s.", here, c.BaseURL)
}

// handler introduces everybody: pages and API over one office.
func handler(c config, o *office.Office) http.Handler {
	return dressed(c, routed(c, o))
}

// dressed wraps the engine in what holds for every request.
func dressed(c config, engine *gin.Engine) http.Handler {
	return behind(c.Proxies, dress(headAsGet(engine), c.secure()))
}

// routed is the engine with every route on it.
func routed(c config, o *office.Office) *gin.Engine {
	gin.SetMode(gin.ReleaseMode)
	engine := gin.New()
	engine.ContextWithFallback = true
	var pages *web.Site
	engine.Use(logRequests, caught(func(c *gin.Context, err error) { pages.Broke(c, err) }),
		newLimits(time.Now, c.Rates).slow(c.secure(), func(c *gin.Context, seconds int) { pages.TooMuch(c, seconds) }),
		fromHere(c.BaseURL, func(c *gin.Context) { pages.FromElsewhere(c) }))
	papers := reports.New(o)
	pages = web.Routes(engine, o, web.Options{Papers: papers, Secure: c.secure(), RequestID: requestID})
	api.Routes(engine, o, identify(o, pages), api.Papers{Record: papers.Record, Page: papers.PaperPage, Blank: papers.Blank, Certificate: papers.CertificatePDF, Transcript: papers.Transcript, Handover: papers.Handover,
		Readiness: papers.Readiness, Questions: papers.Questions, Lesson: papers.Lesson, Lessons: papers.Lessons, Overdue: papers.Overdue, OverdueCSV: papers.OverdueCSV, OverdueXLSX: papers.OverdueXLSX, StandingsCSV: papers.StandingsCSV, StandingsXLSX: papers.StandingsXLSX, Coverage: papers.Coverage, Visits: papers.Visits, VisitsICS: papers.VisitsICS, Packet: papers.PacketFile, CoverageCSV: papers.CoverageCSV, CoverageXLSX: papers.CoverageXLSX, SkillsDayCards: papers.SkillsDayCards, HomePaper: papers.HomePaper, LearningPlan: papers.LearningPlan})
	engine.HandleMethodNotAllowed = true
	missing := func(c *gin.Context) {
		wrong := c.Writer.Status() == http.StatusMethodNotAllowed // the engine has looked already
		if wrong {
			allowHead(c.Writer.Header())
		}
		switch {
		case isAPI(c.Request):
			api.NoRoute(c)
		case !wrong:
			pages.NotFound(c)
		default:
			c.String(http.StatusMethodNotAllowed, "This address does not know the method that was used.\n")
		}
	}
	engine.NoRoute(missing)
	engine.NoMethod(missing)
	return engine
}

// identify tells who asks: a program by its token, a page by its cookie.
func identify(o *office.Office, pages *web.Site) api.Identify {
	byBearer := api.ByBearer(o)
	return func(r *http.Request) (assessment.Actor, error) {
		if api.Bearer(r) != "" {
			return byBearer(r)
		}
		return pages.Identify(r)
	}
}

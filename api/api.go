package api

import (
	"time"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/adapters/humagin"
	"github.com/gin-gonic/gin"

	"wellshown/assessment/office"
)

// Base is where the API is found.
const Base = "/api/v1"

// mostBody is the most that a body may have, in bytes.
const mostBody = 1 << 20

// mostPage is the most that a photo or scan may have, and slowestPage how long it may
// take to come.
const (
	mostPage    = office.MostPageBytes
	slowestPage = 2 * time.Minute
)

// slowestBody is how long a body may take to come: 1 MiB over a slow line.
const slowestBody = 15 * time.Second

// edge is what every handler works with.
type edge struct {
	office   *office.Office
	papers   Papers
	identify Identify
	document *document
}

// Routes hangs the API into an engine, under Base. It panics where a paper is
// missing or the routes do not fit together: such a program must not start.
//
// It sets the engine's answers for addresses and methods that there are not; where
// others share the engine, both are set again with NoRoute before theirs.
func Routes(engine *gin.Engine, o *office.Office, identify Identify, papers Papers) {
	papers.mustBeWhole()
	engine.HandleMethodNotAllowed = true
	engine.ContextWithFallback = true
	engine.NoRoute(NoRoute)
	engine.NoMethod(NoRoute)
	e := &edge{office: o, papers: papers, identify: identify, document: &document{}}
	group := engine.Group(Base, caught, readable, whole)
	e.document.of = e.register(humagin.NewWithGroup(engine, group, config()))
}

// register adds every route to the framework and gives back the document that
// comes of it.
func (e *edge) register(door huma.API) *huma.OpenAPI {
	for _, chapter := range e.chapters() {
		door.OpenAPI().Tags = append(door.OpenAPI().Tags, &huma.Tag{Name: chapter.name, Description: chapter.says})
		for _, r := range chapter.routes {
			r.add(door, e.operation(chapter, r))
		}
	}
	tellIDs(door.OpenAPI())
	return door.OpenAPI()
}

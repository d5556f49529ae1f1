# The service as one static program in an otherwise empty image, under an account without rights. The migrations, pages
# and fonts are inside the program. See compose.yaml for how it is run.

ARG GO_IMAGE=golang:1.26-bookworm

FROM ${GO_IMAGE} AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
RUN CGO_ENABLED=0 go build -tags=nomsgpack -trimpath -ldflags="-s -w" -o /out/wellshown ./cmd/wellshown
# The zones that agencies live in, and whom to trust when the database asks for TLS.
# Where keys are kept outside the database: a volume that the service's account may write to.
RUN mkdir /out/keys && cp "$(go env GOROOT)/lib/time/zoneinfo.zip" /out/ && cp /etc/ssl/certs/ca-certificates.crt /out/

FROM scratch
COPY --from=build /out/wellshown /usr/local/bin/wellshown
COPY --from=build /out/zoneinfo.zip /usr/share/zoneinfo.zip
COPY --from=build /out/ca-certificates.crt /etc/ssl/certs/ca-certificates.crt
COPY --from=build --chown=65532:65532 /out/keys /keys
ENV ZONEINFO=/usr/share/zoneinfo.zip HOST=0.0.0.0 PORT=8080
USER 65532:65532
EXPOSE 8080
ENTRYPOINT ["/usr/local/bin/wellshown"]
CMD ["serve"]

-- What a surveyor may look at, from when to when, and who let them. Both tables are
-- append-only: access that was given is ended by a row of its own.
-- +goose Up
create table survey_access (
    agency_id  uuid not null,
    id         uuid not null,
    person_id  uuid not null,
    whole      boolean not null,
    people     uuid[] not null,
    clients    uuid[] not null,
    reason     text not null,
    from_at    timestamptz not null,
    to_at      timestamptz not null,
    given_by   uuid not null,
    given_at   timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, given_by) references person (agency_id, id),
    constraint survey_access_says_why check (btrim(reason) <> ''),
    constraint survey_access_is_to_something check (whole <> (cardinality(people) + cardinality(clients) > 0)),
    constraint survey_access_is_short check (to_at > from_at and to_at <= from_at + interval '31 days' and from_at >= given_at),
    constraint survey_access_is_given_by_another check (person_id <> given_by)
);
create index survey_access_of on survey_access (agency_id, person_id, to_at);
comment on table survey_access is 'what a surveyor may look at and until when; append-only';

create table survey_access_end (
    agency_id uuid not null,
    access_id uuid not null,
    ended_by  uuid not null,
    ended_at  timestamptz not null,
    primary key (agency_id, access_id),
    foreign key (agency_id, access_id) references survey_access (agency_id, id),
    foreign key (agency_id, ended_by) references person (agency_id, id)
);
comment on table survey_access_end is 'access of surveyors that was ended early; append-only';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['survey_access', 'survey_access_end'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
        perform ledger_keeps(t::regclass);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose Down
drop table survey_access_end, survey_access;

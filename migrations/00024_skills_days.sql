-- Skills days: stations where skills are shown, and who comes. It is a plan and a list of
-- who stands where; nothing in here makes anybody current. What is shown is a sheet and a
-- demonstration like any other.
-- +goose Up
create table skills_day (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    held_on    date not null,
    name       text not null,
    place      text not null,
    planned_by uuid not null,
    planned_at timestamptz not null,
    ended_by   uuid,
    ended_at   timestamptz,
    primary key (agency_id, id),
    foreign key (agency_id, planned_by) references person (agency_id, id),
    foreign key (agency_id, ended_by) references person (agency_id, id),
    constraint skills_day_says_what_and_where check (btrim(name) <> '' and btrim(place) <> ''),
    constraint skills_day_is_ended_by_somebody check ((ended_by is null) = (ended_at is null))
);
create index skills_day_on on skills_day (agency_id, held_on);
comment on table skills_day is 'days on which many show skills at stations';

create table skills_day_station (
    agency_id   uuid not null,
    day_id      uuid not null,
    no          smallint not null,
    skill_id    uuid not null,
    observer_id uuid not null,
    client_id   uuid,
    primary key (agency_id, day_id, no),
    foreign key (agency_id, day_id) references skills_day (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, observer_id) references person (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    constraint skills_day_station_is_numbered check (no >= 1 and no <= 24)
);
comment on table skills_day_station is 'one skill, its observer and the child whose values it is judged by; no is the number on its table';

create table skills_day_learner (
    agency_id uuid not null,
    day_id    uuid not null,
    person_id uuid not null,
    station   smallint,
    moved_at  timestamptz,
    primary key (agency_id, day_id, person_id),
    foreign key (agency_id, day_id) references skills_day (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, day_id, station) references skills_day_station (agency_id, day_id, no)
);
comment on table skills_day_learner is 'who comes, and the one station where they are now; null: at none';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['skills_day', 'skills_day_station', 'skills_day_learner'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert, update on %I to wellshown_service', t);
        perform ledger_keeps(t::regclass);
    end loop;
    foreach t in array array['skills_day_station', 'skills_day_learner'] loop
        execute format('grant delete on %I to wellshown_service', t);
        execute format('create trigger what_was_erased_stays_erased before insert on %I for each row execute function what_was_erased_stays_erased()', t);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose Down
drop table skills_day_learner, skills_day_station, skills_day;

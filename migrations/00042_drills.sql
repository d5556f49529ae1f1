-- Emergency drills: scenarios as versions, and what an ordinary demonstration has more when it
-- was a drill: which scenario was read out, and three moments by a clock. A drill is always in
-- simulation; a key and a check hold its sheet and its record to that. No standing is folded
-- from any of this.
-- +goose Up
create table drill_scenario (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    skill_id  uuid not null,
    code      text not null,
    version   integer not null,
    starter   boolean not null,
    retired   boolean not null,
    body      text not null,
    added_by  uuid not null,
    added_at  timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, added_by) references person (agency_id, id),
    constraint drill_scenario_version_is_there_once unique (agency_id, code, version),
    constraint drill_scenario_versions_count_from_one check (version >= 1)
);
create index drill_scenario_of on drill_scenario (agency_id, skill_id);
comment on table drill_scenario is 'one version of a scenario for drills of a skill; the newest version of a code counts; append-only';
comment on column drill_scenario.starter is 'as the program brings it along, kept when it was first used; else written by the agency';
comment on column drill_scenario.retired is 'from this version on it is not offered';
comment on column drill_scenario.body is 'the scenario in its written form, as JSON';

alter table sheet add constraint sheet_has_one_setting unique (agency_id, id, real_client);
create table sheet_drill (
    agency_id   uuid not null,
    sheet_id    uuid not null,
    real_client boolean not null default false,
    scenario_id uuid not null,
    seed        text not null,
    drawn_of    uuid[] not null,
    recognised  integer,
    acted       integer,
    called      integer,
    timed_at    timestamptz,
    taken_back  jsonb not null default '[]',
    primary key (agency_id, sheet_id),
    foreign key (agency_id, scenario_id) references drill_scenario (agency_id, id),
    constraint sheet_drill_is_in_simulation check (not real_client),
    constraint sheet_drill_keeps_its_setting foreign key (agency_id, sheet_id, real_client) references sheet (agency_id, id, real_client) on delete cascade,
    constraint sheet_drill_times_are_seconds check (recognised >= 0 and recognised <= 3600 and acted >= 0 and acted <= 3600 and called >= 0 and called <= 3600)
);
comment on table sheet_drill is 'a demonstration being marked is a drill: its scenario and its clock; goes into the record';
comment on column sheet_drill.seed is 'by which the scenario was drawn; empty: the observer chose it';
comment on column sheet_drill.drawn_of is 'the versions it was drawn of, in order';
comment on column sheet_drill.recognised is 'seconds since the drill began; null: not done, or not put down yet';
comment on column sheet_drill.timed_at is 'when the moments were put down; null: not yet';
comment on column sheet_drill.taken_back is 'moments that were tapped and taken back, oldest first';

create table demonstration_drill (
    agency_id        uuid not null,
    demonstration_id uuid not null,
    scenario_id      uuid not null,
    seed             text not null,
    drawn_of         uuid[] not null,
    timed            boolean not null,
    recognised       integer,
    acted            integer,
    called           integer,
    primary key (agency_id, demonstration_id),
    foreign key (agency_id, demonstration_id) references demonstration (agency_id, id),
    foreign key (agency_id, scenario_id) references drill_scenario (agency_id, id),
    constraint demonstration_drill_times_are_seconds check (recognised >= 0 and recognised <= 3600 and acted >= 0 and acted <= 3600 and called >= 0 and called <= 3600),
    constraint demonstration_drill_has_times_that_were_put_down check (timed or num_nonnulls(recognised, acted, called) = 0)
);
create index demonstration_drill_of on demonstration_drill (agency_id, scenario_id);
comment on table demonstration_drill is 'a record is of a drill: which scenario was read out, and when its moments came; as the signed text has it; append-only';
comment on column demonstration_drill.recognised is 'seconds since the drill began; null: not done';
comment on column demonstration_drill.timed is 'false: it was stopped before any moment was put down';

alter table demonstration add constraint demonstration_of_a_drill_is_in_simulation check (not (real_client and body::jsonb ? 'drill'));

-- +goose StatementBegin
create function drill_fits_its_record() returns trigger
    language plpgsql as $$
begin
    if not exists (select from demonstration d cross join lateral (select d.body::jsonb -> 'drill' as part) b
                   where d.agency_id = new.agency_id and d.id = new.demonstration_id and not d.real_client and d.erased_at is null
                     and b.part ->> 'scenario' = new.scenario_id::text
                     and coalesce(b.part ->> 'seed', '') = new.seed
                     and coalesce(b.part -> 'drawn_of', '[]') = to_jsonb(new.drawn_of)
                     and (b.part ->> 'timed')::boolean = new.timed
                     and (b.part ->> 'recognised_s')::integer is not distinct from new.recognised
                     and (b.part ->> 'acted_s')::integer is not distinct from new.acted
                     and (b.part ->> 'called_s')::integer is not distinct from new.called) then
        raise exception 'the drill of a record is kept as the record has it, in simulation'
            using errcode = 'check_violation', constraint = 'drill_fits_its_record';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger drill_fits_its_record before insert on demonstration_drill
    for each row execute function drill_fits_its_record();

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['drill_scenario', 'sheet_drill', 'demonstration_drill'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    foreach t in array array['drill_scenario', 'demonstration_drill'] loop
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
        perform ledger_keeps(t::regclass);
    end loop;
end
$$;
-- +goose StatementEnd
grant update (recognised, acted, called, timed_at, taken_back) on sheet_drill to wellshown_service;

-- +goose Down
alter table demonstration drop constraint demonstration_of_a_drill_is_in_simulation;
drop table demonstration_drill, sheet_drill, drill_scenario;
drop function drill_fits_its_record();
alter table sheet drop constraint sheet_has_one_setting;

-- Visits of educators to homes: when educators can go, how long the ways are, and which
-- visits are planned. A visit makes nobody current. What it is for is worked out from
-- standings each time and stands nowhere here. Places that educators start from have a name
-- of their own, so that nothing here tells where a person lives.
-- +goose Up
create table visit_base (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    name      text not null,
    added_by  uuid not null,
    added_at  timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, added_by) references person (agency_id, id)
);
create unique index visit_base_is_named_once on visit_base (agency_id, lower(name));
comment on table visit_base is 'a place that educators start from, such as the office';

create table visit_availability (
    agency_id uuid not null references agency (id),
    person_id uuid not null,
    days_off  smallint[] not null,
    per_day   smallint not null,
    base_id   uuid,
    set_by    uuid not null,
    set_at    timestamptz not null,
    primary key (agency_id, person_id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, base_id) references visit_base (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint visit_availability_is_by_weekdays check (days_off <@ '{1,2,3,4,5,6,7}'::smallint[]),
    constraint visit_availability_is_so_many_a_day check (per_day >= 0 and per_day <= 12)
);
comment on table visit_availability is 'how an educator''s weeks are; none: as the program takes for granted';
comment on column visit_availability.days_off is 'off each week: 1 is Monday, 7 is Sunday (ISO 8601)';
comment on column visit_availability.per_day is 'visits on one day at most';

create table visit_days_off (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    person_id  uuid not null,
    from_on    date not null,
    through_on date not null,
    added_by   uuid not null,
    added_at   timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, added_by) references person (agency_id, id),
    constraint visit_days_off_end_after_they_begin check (through_on >= from_on)
);
create index visit_days_off_of on visit_days_off (agency_id, person_id, from_on);
comment on table visit_days_off is 'days on which an educator makes no visits; why is nobody''s business here';

create table travel_time (
    agency_id       uuid not null references agency (id),
    id              uuid not null,
    client_id       uuid not null,
    other_client_id uuid,
    base_id         uuid,
    minutes         smallint not null,
    set_by          uuid not null,
    set_at          timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, other_client_id) references client (agency_id, id),
    foreign key (agency_id, base_id) references visit_base (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint travel_time_has_one_other_end check ((other_client_id is null) <> (base_id is null)),
    constraint travel_time_is_between_two_homes check (client_id < other_client_id),
    constraint travel_time_is_within_a_day check (minutes >= 0 and minutes <= 720)
);
create unique index travel_time_between_homes_is_one on travel_time (agency_id, client_id, other_client_id) where other_client_id is not null;
create unique index travel_time_from_a_base_is_one on travel_time (agency_id, client_id, base_id) where base_id is not null;
comment on table travel_time is 'minutes between two homes, or a home and a base, the same both ways; a pair of homes stands once, the smaller id first';

create table home_visit (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    client_id  uuid not null,
    person_id  uuid not null,
    falls_on   date not null,
    planned_by uuid not null,
    planned_at timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, planned_by) references person (agency_id, id)
);
create unique index home_visit_is_planned_once on home_visit (agency_id, client_id, person_id, falls_on);
create index home_visit_at on home_visit (agency_id, falls_on);
comment on table home_visit is 'an educator at a home on a day; what they see there is worked out from standings';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['visit_base', 'visit_availability', 'visit_days_off', 'travel_time', 'home_visit'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert, update, delete on %I to wellshown_service', t);
        perform ledger_keeps(t::regclass);
    end loop;
    foreach t in array array['visit_availability', 'visit_days_off', 'home_visit'] loop
        execute format('create trigger what_was_erased_stays_erased before insert or update of person_id on %I for each row execute function what_was_erased_stays_erased()', t);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose Down
drop table home_visit, travel_time, visit_days_off, visit_availability, visit_base;

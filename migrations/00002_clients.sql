-- The children: a short code and a first name, no more. Ordered values and
-- equipment are kept as dated rows, because a record must be read by what was
-- ordered when it was made.
-- +goose Up
create table client (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    code       text not null,
    first_name text not null,
    created_at timestamptz not null,
    left_on    date,
    primary key (agency_id, id),
    constraint client_code_is_taken unique (agency_id, code),
    constraint client_code_is_short check (code ~ '^[A-Z0-9-]{1,12}$'),
    constraint client_has_a_first_name check (btrim(first_name) <> '' and length(first_name) <= 60)
);
comment on table client is 'the child, by short code and first name';

create table client_parameter (
    agency_id uuid not null,
    id        uuid not null,
    client_id uuid not null,
    name      text not null,
    value     text,
    unit      text not null default '',
    words     text,
    set_at    timestamptz not null,
    set_by    uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint parameter_is_a_number_or_words check (value is null or words is null),
    constraint parameter_value_is_exact check (value is null or value ~ '^-?[0-9]{1,12}([.][0-9]{1,12}|/[0-9]{1,12})?$')
);
create index client_parameter_newest on client_parameter (agency_id, client_id, name, set_at desc);
comment on table client_parameter is 'values ordered for the child; the newest row of a name counts, one without value unsets it; append-only';

create table client_equipment (
    agency_id   uuid not null,
    id          uuid not null,
    client_id   uuid not null,
    kind        text not null,
    type        text not null,
    from_on     date not null,
    recorded_at timestamptz not null,
    recorded_by uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    constraint equipment_has_a_kind check (btrim(kind) <> '')
);
create index client_equipment_of on client_equipment (agency_id, client_id, kind, from_on);
comment on table client_equipment is 'which type of each kind of equipment the child has from a day on; an empty type means none; append-only';

create table care_team (
    agency_id  uuid not null,
    id         uuid not null,
    client_id  uuid not null,
    person_id  uuid not null,
    from_on    date not null,
    through_on date,
    added_at   timestamptz not null,
    added_by   uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint team_ends_after_it_begins check (through_on is null or through_on >= from_on)
);
create index care_team_of_client on care_team (agency_id, client_id);
create index care_team_of_person on care_team (agency_id, person_id);
comment on table care_team is 'who looks after which child from when to when';

-- +goose Down
drop table care_team, client_equipment, client_parameter, client;

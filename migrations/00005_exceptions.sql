-- Recorded, reasoned, signed exceptions either way, and what else counts for
-- standing. A correction names the record that it takes back.
-- +goose Up
create table withdrawal (
    agency_id  uuid not null,
    id         uuid not null,
    person_id  uuid not null,
    skill_id   uuid not null,
    client_id  uuid,
    at         timestamptz not null,
    until      text not null,
    reason     text not null,
    signed_by  uuid not null,
    printed_name text not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint withdrawal_until_is_known check (until in ('redemonstrated', 'reinstated')),
    constraint withdrawal_states_its_reason check (btrim(reason) <> '')
);
create index withdrawal_of on withdrawal (agency_id, person_id, skill_id);
comment on table withdrawal is 'a competency taken away, by whom and why; append-only';

create table reinstatement (
    agency_id     uuid not null,
    id            uuid not null,
    withdrawal_id uuid not null,
    at            timestamptz not null,
    reason        text not null,
    signed_by     uuid not null,
    printed_name  text not null,
    primary key (agency_id, id),
    foreign key (agency_id, withdrawal_id) references withdrawal (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint reinstatement_is_made_once unique (agency_id, withdrawal_id),
    constraint reinstatement_states_its_reason check (btrim(reason) <> '')
);
comment on table reinstatement is 'a withdrawal lifted by someone entitled; append-only';

create table waiver (
    agency_id    uuid not null,
    id           uuid not null,
    person_id    uuid not null,
    skill_id     uuid not null,
    client_id    uuid,
    from_on      date not null,
    through_on   date not null,
    reason       text not null,
    at           timestamptz not null,
    signed_by    uuid not null,
    printed_name text not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint waiver_ends_after_it_begins check (through_on >= from_on),
    constraint waiver_states_its_reason check (btrim(reason) <> '')
);
create index waiver_of on waiver (agency_id, person_id, skill_id);
comment on table waiver is 'somebody excused from holding a skill for some days; makes nobody current; append-only';

create table exposure (
    agency_id   uuid not null,
    id          uuid not null,
    person_id   uuid not null,
    skill_id    uuid not null,
    client_id   uuid,
    kind        text not null,
    on_day      date not null,
    note        text not null default '',
    recorded_at timestamptz not null,
    recorded_by uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    constraint exposure_kind_is_known check (kind in ('practice', 'teaching'))
);
create index exposure_of on exposure (agency_id, person_id, skill_id);
comment on table exposure is 'a skill taught, or used at work as reported; append-only';

create table correction (
    agency_id    uuid not null,
    id           uuid not null,
    of_kind      text not null,
    of_id        uuid not null,
    at           timestamptz not null,
    reason       text not null,
    signed_by    uuid not null,
    printed_name text not null,
    primary key (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint correction_is_made_once unique (agency_id, of_id),
    constraint correction_kind_is_known check
        (of_kind in ('demonstration', 'withdrawal', 'reinstatement', 'waiver', 'recheck', 'practice', 'teaching', 'card', 'licence')),
    constraint correction_states_its_reason check (btrim(reason) <> '')
);
comment on table correction is 'a record taken back: the original stays readable; append-only';

create table standing_segment (
    agency_id  uuid not null,
    person_id  uuid not null,
    skill_id   uuid not null,
    client_key uuid not null,
    from_on    date not null,
    word       text not null,
    through_on date,
    since_on   date,
    primary key (agency_id, person_id, skill_id, client_key, from_on),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id)
);
comment on table standing_segment is 'an index for speed and nothing more: what the fold says, from a day until the next row; client_key is all zeros for general skills';

-- +goose Down
drop table standing_segment, correction, exposure, waiver, reinstatement, withdrawal;

-- Who must hold what, and what a child needs before going home.
-- +goose Up
create table requirement (
    agency_id      uuid not null,
    id             uuid not null,
    skill_id       uuid not null,
    kind           text not null default '',
    client_id      uuid,
    equipment_kind text not null default '',
    from_on        date not null,
    through_on     date,
    set_at         timestamptz not null,
    set_by         uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    constraint requirement_kind_is_known check (kind in ('', 'family', 'nurse', 'aide')),
    constraint requirement_ends_after_it_begins check (through_on is null or through_on >= from_on)
);
comment on table requirement is 'who must hold a skill: by caregiver kind, by client, by equipment';

create table criterion (
    agency_id  uuid not null,
    id         uuid not null,
    client_id  uuid not null,
    kind       text not null,
    title      text not null,
    skills     text[] not null default '{}',
    people     integer not null default 0,
    hours      integer not null default 0,
    items      text[] not null default '{}',
    position   integer not null,
    added_at   timestamptz not null,
    added_by   uuid not null,
    removed_at timestamptz,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    constraint criterion_has_a_title check (btrim(title) <> ''),
    constraint criterion_numbers_are_plain check (people between 0 and 20 and hours between 0 and 2000)
);
create index criterion_of on criterion (agency_id, client_id, position);
comment on table criterion is 'one line of a child''s plan for going home';

create table evidence (
    agency_id    uuid not null,
    id           uuid not null,
    criterion_id uuid not null,
    word         text not null,
    item         text not null default '',
    at           timestamptz not null,
    note         text not null default '',
    recorded_at  timestamptz not null,
    signed_by    uuid not null,
    printed_name text not null,
    primary key (agency_id, id),
    foreign key (agency_id, criterion_id) references criterion (agency_id, id),
    foreign key (agency_id, signed_by) references person (agency_id, id),
    constraint evidence_word_is_known check
        (word in ('met', 'not met', 'delivered', 'started', 'ended', 'waived', 'waiver ended')),
    constraint evidence_of_a_waiver_states_its_reason check (word <> 'waived' or btrim(note) <> '')
);
create index evidence_of on evidence (agency_id, criterion_id, at);
comment on table evidence is 'dated statements about a criterion, by name; append-only';

create table plan_shift (
    agency_id uuid not null,
    id        uuid not null,
    client_id uuid not null,
    person_id uuid not null,
    starts_at timestamptz not null,
    ends_at   timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint shift_ends_after_it_starts check (ends_at > starts_at)
);
create index plan_shift_of on plan_shift (agency_id, client_id, starts_at);
comment on table plan_shift is 'the early shifts after discharge, with who takes them';

-- +goose Down
drop table plan_shift, evidence, criterion, requirement;

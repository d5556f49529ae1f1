-- The tenant and its people. agency_id leads every key, so that the schema can be
-- spread over machines by it; row security is on from the first day.
-- +goose Up

-- +goose StatementBegin
create function app_agency() returns uuid
    language sql stable
    return nullif(current_setting('app.agency_id', true), '')::uuid;
-- +goose StatementEnd
comment on function app_agency() is 'the agency of this transaction; null where none was set, and then no row is seen';

-- +goose StatementBegin
create function refuse_change() returns trigger
    language plpgsql as $$
begin
    raise exception '% is append-only: a correction is a new record', tg_table_name
        using errcode = 'restrict_violation', constraint = tg_table_name || '_is_append_only';
end
$$;
-- +goose StatementEnd

create table agency (
    id         uuid primary key,
    code       text not null,
    name       text not null,
    zone       text not null,
    demo       boolean not null default false,
    created_at timestamptz not null,
    constraint agency_code_is_taken unique (code),
    constraint agency_code_is_a_short_word check (code ~ '^[a-z][a-z0-9-]{1,30}$'),
    constraint agency_has_a_name check (btrim(name) <> '')
);
comment on table agency is 'the tenant; owns all other records; has one time zone';

create table person (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    name       text not null,
    kind       text not null default '',
    relation   text not null default '',
    email      text not null default '',
    language   text not null default 'en',
    created_at timestamptz not null,
    left_on    date,
    primary key (agency_id, id),
    constraint person_has_a_name check (btrim(name) <> '' and length(name) <= 200),
    constraint person_kind_is_known check (kind in ('', 'family', 'nurse', 'aide')),
    constraint person_email_is_plain check (email = '' or email ~ '^[^@[:space:]]+@[^@[:space:]]+$')
);
create unique index person_email_is_taken on person (agency_id, lower(email)) where email <> '';
create index person_by_email on person (lower(email)) where email <> '';
comment on table person is 'someone with a name and zero or more roles; the name may change, what they signed keeps the name it was signed with';

create table person_role (
    agency_id uuid not null,
    person_id uuid not null,
    role      text not null,
    given_at  timestamptz not null,
    given_by  uuid,
    ended_at  timestamptz,
    ended_by  uuid,
    primary key (agency_id, person_id, role, given_at),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint role_is_known check (role in ('administrator', 'educator', 'coordinator', 'caregiver', 'surveyor')),
    constraint role_ends_after_it_began check (ended_at is null or ended_at >= given_at)
);
create unique index role_is_held_once on person_role (agency_id, person_id, role) where ended_at is null;
comment on table person_role is 'who had which role from when to when, given and ended by whom';

create table credential (
    agency_id     uuid not null,
    person_id     uuid not null,
    password_hash text not null,
    set_at        timestamptz not null,
    must_change   boolean not null default false,
    primary key (agency_id, person_id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint credential_is_argon2id check (password_hash like '$argon2id$%')
);
comment on table credential is 'argon2id hashes of passwords, one a person';

create table session (
    agency_id  uuid not null,
    token_hash bytea not null,
    person_id  uuid not null,
    created_at timestamptz not null,
    seen_at    timestamptz not null,
    expires_at timestamptz not null,
    primary key (agency_id, token_hash),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint session_token_is_hashed check (length(token_hash) = 32)
);
create index session_by_token on session (token_hash);
comment on table session is 'who is signed in; the token itself is never stored';

create table sign_in_try (
    agency_id    uuid not null,
    id           uuid not null,
    person_id    uuid not null,
    address_hash bytea not null,
    at           timestamptz not null,
    ok           boolean not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id)
);
create index sign_in_try_lately on sign_in_try (agency_id, person_id, at);
comment on table sign_in_try is 'tries to sign in, for slowing down guessing by one address';

create table licence (
    agency_id   uuid not null,
    id          uuid not null,
    person_id   uuid not null,
    kind        text not null,
    number      text not null,
    through_on  date,
    recorded_at timestamptz not null,
    recorded_by uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint licence_has_a_kind check (btrim(kind) <> ''),
    constraint licence_has_a_number check (btrim(number) <> '')
);
comment on table licence is 'rights to practise as checked by the agency; append-only';

create table resuscitation_card (
    agency_id   uuid not null,
    id          uuid not null,
    person_id   uuid not null,
    issuer      text not null,
    issued_on   date,
    course_on   date,
    printed_on  date,
    through_on  date not null,
    recorded_at timestamptz not null,
    recorded_by uuid not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint card_has_a_source_of_its_end check (issued_on is not null or course_on is not null or printed_on is not null)
);
comment on table resuscitation_card is 'resuscitation cards seen by the agency; append-only';

create table appointment (
    agency_id   uuid not null,
    id          uuid not null,
    person_id   uuid not null,
    skills      text[] not null,
    from_on     date not null,
    through_on  date not null,
    founding    boolean not null,
    evidence    text not null,
    proposed_by uuid not null,
    proposed_at timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, proposed_by) references person (agency_id, id),
    constraint appointment_ends_after_it_begins check (through_on >= from_on),
    constraint appointment_names_skills check (cardinality(skills) > 0),
    constraint appointment_states_its_evidence check (btrim(evidence) <> '')
);
comment on table appointment is 'who may observe which skills, on what evidence; counts only once agreed; append-only';

create table appointment_agreement (
    agency_id      uuid not null,
    appointment_id uuid not null,
    agreed_by      uuid not null,
    agreed_at      timestamptz not null,
    primary key (agency_id, appointment_id),
    foreign key (agency_id, appointment_id) references appointment (agency_id, id),
    foreign key (agency_id, agreed_by) references person (agency_id, id)
);
comment on table appointment_agreement is 'the second person who agreed; append-only';

-- +goose StatementBegin
create function agreement_needs_a_second_person() returns trigger
    language plpgsql as $$
begin
    if exists (select from appointment a
               where a.agency_id = new.agency_id and a.id = new.appointment_id
                 and new.agreed_by in (a.person_id, a.proposed_by)) then
        raise exception 'an appointment is agreed by somebody who neither proposed nor receives it'
            using errcode = 'check_violation', constraint = 'agreement_needs_a_second_person';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger agreement_needs_a_second_person before insert on appointment_agreement
    for each row execute function agreement_needs_a_second_person();

create table appointment_end (
    agency_id      uuid not null,
    appointment_id uuid not null,
    ended_by       uuid not null,
    ended_at       timestamptz not null,
    reason         text not null,
    primary key (agency_id, appointment_id),
    foreign key (agency_id, appointment_id) references appointment (agency_id, id)
);
comment on table appointment_end is 'appointments ended early, with the reason; append-only';

create table journal (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    at        timestamptz not null,
    actor_id  uuid,
    act       text not null,
    kind      text not null,
    subject   uuid,
    primary key (agency_id, id)
);
create index journal_of on journal (agency_id, subject, at);
comment on table journal is 'who did what to what and when; no names, no free text; append-only';

-- +goose Down
drop table journal, appointment_end, appointment_agreement, appointment, resuscitation_card, licence, sign_in_try, session, credential, person_role, person, agency;
drop function agreement_needs_a_second_person(), refuse_change(), app_agency();

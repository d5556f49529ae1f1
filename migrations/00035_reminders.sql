-- Reminders: what an agency reminds of, what was told to whom, and the mail of each day.
-- A letter names nobody and nothing, so that only numbers of it are kept. What was told
-- is kept for good: it is what keeps it from being told twice.
-- +goose Up
create table reminder_rule (
    agency_id uuid not null references agency (id),
    id        uuid not null,
    off       boolean not null,
    at_clock  smallint not null,
    opens     boolean not null,
    days      smallint[] not null,
    lapsed    boolean not null,
    unplanned smallint not null,
    rostered  boolean not null,
    set_by    uuid not null,
    set_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, set_by) references person (agency_id, id),
    constraint reminder_rule_is_by_the_clock check (at_clock >= 0 and at_clock <= 1439),
    constraint reminder_rule_looks_days_ahead check (unplanned >= 0 and unplanned <= 60 and cardinality(days) <= 6)
);
create index reminder_rule_newest on reminder_rule (agency_id, set_at desc);
comment on table reminder_rule is 'what people are reminded of, and when; the newest row counts, none: as the program takes for granted; append-only';
comment on column reminder_rule.at_clock is 'minutes after midnight on the agency''s clocks';
comment on column reminder_rule.days is 'so many days before the last day of a holding';
comment on column reminder_rule.unplanned is 'coordinators are told so many days before, where nothing is planned; 0: not';

create table reminder_day (
    agency_id uuid not null references agency (id),
    falls_on  date not null,
    made_at   timestamptz not null,
    primary key (agency_id, falls_on)
);
comment on table reminder_day is 'of which days it was worked out whom to remind';

create table mail_digest (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    person_id  uuid not null,
    falls_on   date not null,
    language   text not null,
    due        smallint not null,
    lapsed     smallint not null,
    unplanned  smallint not null,
    rostered   smallint not null,
    message_id text not null,
    made_at    timestamptz not null,
    state      text not null,
    tries      smallint not null,
    job        integer not null,
    next_at    timestamptz not null,
    held_until timestamptz,
    ended_at   timestamptz,
    code       smallint not null,
    says       text not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    constraint mail_digest_is_one_a_day unique (agency_id, person_id, falls_on),
    constraint mail_digest_has_an_id_of_its_own unique (message_id),
    constraint mail_digest_state_is_known check (state in ('waiting', 'sending', 'sent', 'failed', 'dropped')),
    constraint mail_digest_is_held_while_it_is_sent check ((state = 'sending') = (held_until is not null)),
    constraint mail_digest_ends_once check ((state in ('sent', 'failed', 'dropped')) = (ended_at is not null))
);
create index mail_digest_of_day on mail_digest (agency_id, falls_on desc);
create index mail_digest_under_way on mail_digest (agency_id, next_at) where state in ('waiting', 'sending');
comment on table mail_digest is 'the letter of one day to one person: how much it tells, and what became of it';
comment on column mail_digest.message_id is 'worked out from whose letter of which day it is, so that sending it again is known as the same (RFC 5322)';
comment on column mail_digest.job is 'how many jobs were made to send it';
comment on column mail_digest.held_until is 'until when whoever is sending it may take; after that they are taken for dead, and it waits again';
comment on column mail_digest.says is 'what the mail server said last, without addresses';

create table notice (
    agency_id  uuid not null references agency (id),
    person_id  uuid not null,
    about_id   uuid not null,
    skill_id   uuid not null,
    client_key uuid not null,
    stage      text not null,
    through_on date not null,
    digest_id  uuid not null,
    primary key (agency_id, person_id, about_id, skill_id, client_key, stage, through_on),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, about_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, digest_id) references mail_digest (agency_id, id)
);
create index notice_through on notice (agency_id, through_on);
create index notice_of_digest on notice (agency_id, digest_id);
comment on table notice is 'who was told what of whom, at which stage, once; client_key is all zeros for general skills';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['reminder_rule', 'reminder_day', 'mail_digest', 'notice'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    perform ledger_keeps('reminder_rule');
    create trigger reminder_rule_is_append_only before update or delete on reminder_rule for each row execute function refuse_change();
    create trigger reminder_rule_is_never_emptied before truncate on reminder_rule for each statement execute function refuse_change();
end
$$;
-- +goose StatementEnd
grant update (state, tries, job, next_at, held_until, ended_at, code, says) on mail_digest to wellshown_service;

-- +goose Down
drop table notice, mail_digest, reminder_day, reminder_rule;

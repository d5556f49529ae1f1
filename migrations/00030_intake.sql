-- What an agency brings along: a file that somebody has sent and not yet brought in, and
-- competencies that somebody is said to have shown elsewhere, with their papers. What is
-- carried in makes nobody current: no standing is folded from these tables.
-- +goose Up
alter table client add column since_on date;
alter table client add constraint client_leaves_after_it_came check (left_on >= since_on);
comment on column client.since_on is 'first day on which the agency looks after them; null: not said';

create table import_draft (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    kind       text not null,
    file_name  text not null,
    content    bytea not null,
    brought_by uuid not null,
    brought_at timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, brought_by) references person (agency_id, id),
    constraint import_draft_kind_is_known check (kind in ('people', 'clients', 'shifts', 'carried-in')),
    constraint import_draft_is_a_small_file check (octet_length(content) between 1 and 4194304)
);
create index import_draft_of on import_draft (agency_id, brought_by);
create index import_draft_at on import_draft (agency_id, brought_at);
comment on table import_draft is 'a file between its preview and its import; deleted with the import, or after a day';

create table carried_in (
    agency_id   uuid not null references agency (id),
    id          uuid not null,
    person_id   uuid not null,
    skill_id    uuid not null,
    client_id   uuid,
    observed_on date not null,
    through_on  date,
    signer      text not null,
    place       text not null,
    brought_by  uuid not null,
    brought_at  timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, client_id) references client (agency_id, id),
    foreign key (agency_id, brought_by) references person (agency_id, id),
    constraint carried_in_is_there_once unique nulls not distinct (agency_id, person_id, skill_id, client_id, observed_on, signer, place),
    constraint carried_in_ends_after_it_was_shown check (through_on >= observed_on),
    constraint carried_in_says_who_signed check (btrim(signer) <> '' and length(signer) <= 200),
    constraint carried_in_says_where check (btrim(place) <> '' and length(place) <= 200)
);
comment on table carried_in is 'what somebody is said to have shown elsewhere, by an old paper: never observed here, and no standing comes of it';
comment on column carried_in.through_on is 'through when it holds by the old paper; null: the paper says none';
comment on column carried_in.signer is 'who signed the old paper, as it stands there';

create table carried_paper (
    agency_id      uuid not null references agency (id),
    id             uuid not null,
    person_id      uuid not null,
    media_type     text not null,
    content        bytea not null,
    content_sha256 bytea not null,
    sheets         integer not null,
    attached_by    uuid not null,
    attached_at    timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, person_id) references person (agency_id, id),
    foreign key (agency_id, attached_by) references person (agency_id, id),
    constraint carried_paper_type_is_known check (media_type in ('image/jpeg', 'image/png', 'application/pdf')),
    constraint carried_paper_has_content check (octet_length(content) > 0),
    constraint carried_paper_hash_is_of_its_content check (content_sha256 = sha256(content)),
    constraint carried_paper_is_there_once unique (agency_id, person_id, content_sha256)
);
comment on table carried_paper is 'a photo or scan of an old paper, made anew from what was sent';

create table carried_in_paper (
    agency_id     uuid not null,
    carried_in_id uuid not null,
    paper_id      uuid not null,
    primary key (agency_id, carried_in_id, paper_id),
    foreign key (agency_id, carried_in_id) references carried_in (agency_id, id),
    foreign key (agency_id, paper_id) references carried_paper (agency_id, id)
);
create index carried_in_paper_of on carried_in_paper (agency_id, paper_id);
comment on table carried_in_paper is 'which old paper shows what was carried in';

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['import_draft', 'carried_in', 'carried_paper', 'carried_in_paper'] loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
        execute format('grant select, insert, delete on %I to wellshown_service', t);
    end loop;
    foreach t in array array['carried_in', 'carried_paper'] loop
        execute format('create trigger what_was_erased_stays_erased before insert on %I for each row execute function what_was_erased_stays_erased()', t);
    end loop;
    perform ledger_keeps('carried_in');
    perform ledger_keeps('carried_paper', 'content');
    perform ledger_keeps('carried_in_paper');
end
$$;
-- +goose StatementEnd

-- What an erasure takes besides, put in front of what the plan has by now.
-- +goose StatementBegin
do $$
declare
    plan text := (select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure);
    more text := $more$
        ('person', 'carried_in_paper', null, 't.carried_in_id in (select c.id from carried_in c where c.agency_id = $1 and c.person_id = $2)'),
        ('person', 'carried_paper', null, 't.person_id = $2'),
        ('person', 'carried_in', null, 't.person_id = $2'),$more$;
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace(plan, 'values', 'values' || replace(more, '\', '\\')));
end
$$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
do $$
begin
    execute 'create or replace function erasure_plan() returns table (of_what text, kind text, sets text, whose text) language sql immutable as '
        || quote_literal(regexp_replace((select prosrc from pg_proc where oid = 'erasure_plan()'::regprocedure), '\n *\(''person'', ''carried_[^\n]*', '', 'g'));
end
$$;
-- +goose StatementEnd
drop table carried_in_paper, carried_paper, carried_in, import_draft;
alter table client drop constraint client_leaves_after_it_came, drop column since_on;

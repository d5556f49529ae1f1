-- A checklist comes in force only after two people agree: one proposes it and signs what
-- was reviewed, another agrees and signs, or declines and says why. Both are kept, and the
-- database itself puts nothing in force that nobody else has agreed to.
-- +goose Up
create table force_proposal (
    agency_id   uuid not null references agency (id),
    id          uuid not null,
    skill_id    uuid not null,
    revision_id uuid not null,
    revision    integer not null,
    body_sha256 bytea not null,
    statement   text not null,
    recheck_on  date,
    proposed_by uuid not null,
    proposed_at timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, skill_id) references skill (agency_id, id),
    foreign key (agency_id, proposed_by) references person (agency_id, id),
    constraint force_proposal_says_what_was_reviewed check (btrim(statement) <> ''),
    constraint force_proposal_hash_is_whole check (octet_length(body_sha256) = 32)
);
create index force_proposal_of on force_proposal (agency_id, revision_id);
comment on table force_proposal is 'who proposed to put which text of a draft in force, and what they reviewed; a draft may be thrown away, so its revision is named and not referred to; append-only';

create table force_proposal_end (
    agency_id   uuid not null,
    proposal_id uuid not null,
    verdict     text not null,
    reason      text not null,
    ended_by    uuid not null,
    ended_at    timestamptz not null,
    primary key (agency_id, proposal_id),
    foreign key (agency_id, proposal_id) references force_proposal (agency_id, id),
    foreign key (agency_id, ended_by) references person (agency_id, id),
    constraint force_verdict_is_known check (verdict in ('agreed', 'declined', 'taken back')),
    constraint force_declined_says_why check (verdict <> 'declined' or btrim(reason) <> '')
);
comment on table force_proposal_end is 'what became of it, and by whom; append-only';

-- +goose StatementBegin
create function force_needs_a_second_person() returns trigger
    language plpgsql as $$
begin
    if not exists (select from force_proposal p
                   where p.agency_id = new.agency_id and p.id = new.proposal_id and new.ended_at >= p.proposed_at
                     and (new.verdict = 'taken back') = (new.ended_by = p.proposed_by)) then
        raise exception 'a proposal is agreed to or declined by somebody else than made it, and taken back by who made it'
            using errcode = 'check_violation', constraint = 'force_needs_a_second_person';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger force_needs_a_second_person before insert on force_proposal_end
    for each row execute function force_needs_a_second_person();

-- +goose StatementBegin
create function revision_comes_in_force_by_two() returns trigger
    language plpgsql as $$
begin
    if old.state = 'draft' and new.state <> 'draft' and not exists (
        select from force_proposal p join force_proposal_end e on e.agency_id = p.agency_id and e.proposal_id = p.id
        where p.agency_id = new.agency_id and p.revision_id = new.id and p.body_sha256 = new.body_sha256
          and e.verdict = 'agreed' and p.proposed_by = new.in_force_by and p.statement = new.statement) then
        raise exception 'a revision comes in force only as one person proposed and another agreed to'
            using errcode = 'restrict_violation', constraint = 'revision_comes_in_force_by_two';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger revision_comes_in_force_by_two before update on revision
    for each row execute function revision_comes_in_force_by_two();

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['force_proposal', 'force_proposal_end'] loop
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
drop trigger revision_comes_in_force_by_two on revision;
drop function revision_comes_in_force_by_two();
drop table force_proposal_end, force_proposal;
drop function force_needs_a_second_person();

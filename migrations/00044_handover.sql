-- Neighbours: agencies elsewhere whose signed files are known here by their key. One person
-- enters it, another agrees, and either may end it. What a neighbour says may be carried in,
-- with its file as the paper; no standing is folded from it.
-- +goose Up
create table neighbour (
    agency_id  uuid not null references agency (id),
    id         uuid not null,
    name       text not null,
    house      uuid not null,
    public_key text not null,
    entered_by uuid not null,
    entered_at timestamptz not null,
    primary key (agency_id, id),
    foreign key (agency_id, entered_by) references person (agency_id, id),
    constraint neighbour_has_a_name check (btrim(name) <> '' and length(name) <= 200),
    constraint neighbour_key_is_a_line check (public_key <> '' and length(public_key) <= 300)
);
create index neighbour_by_key on neighbour (public_key, house);
comment on table neighbour is 'an agency elsewhere and the key that it signs with, as one person has entered it; append-only';
comment on column neighbour.house is 'the id of that agency in its own house';

create table neighbour_word (
    agency_id    uuid not null,
    neighbour_id uuid not null,
    word         text not null,
    reason       text not null,
    said_by      uuid not null,
    said_at      timestamptz not null,
    primary key (agency_id, neighbour_id, word),
    foreign key (agency_id, neighbour_id) references neighbour (agency_id, id),
    foreign key (agency_id, said_by) references person (agency_id, id),
    constraint neighbour_word_is_known check (word in ('agreed', 'ended')),
    constraint neighbour_end_says_why check (word <> 'ended' or btrim(reason) <> '')
);
comment on table neighbour_word is 'that a second person agreed to a neighbour, and that somebody ended it; append-only';

-- +goose StatementBegin
create function neighbour_needs_a_second_person() returns trigger
    language plpgsql as $$
begin
    if new.word = 'agreed' and (exists (
        select from neighbour n where n.agency_id = new.agency_id and n.id = new.neighbour_id and (n.entered_by = new.said_by or n.entered_at > new.said_at))
        or exists (select from neighbour_word w where w.agency_id = new.agency_id and w.neighbour_id = new.neighbour_id and w.word = 'ended')) then
        raise exception 'a neighbour is agreed to by somebody else than entered it, and while it is not ended'
            using errcode = 'check_violation', constraint = 'neighbour_needs_a_second_person';
    end if;
    return new;
end
$$;
-- +goose StatementEnd
create trigger neighbour_needs_a_second_person before insert on neighbour_word
    for each row execute function neighbour_needs_a_second_person();

-- +goose StatementBegin
do $$
declare t text;
begin
    foreach t in array array['neighbour', 'neighbour_word'] loop
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

-- +goose StatementBegin
create function door_neighbour(wanted text, of_house uuid)
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select distinct n.agency_id from neighbour n join neighbour_word w on w.agency_id = n.agency_id and w.neighbour_id = n.id and w.word = 'agreed'
        where n.public_key = wanted and n.house = of_house;
    end;
-- +goose StatementEnd
comment on function door_neighbour(text, uuid) is 'asked before the agency is known: who knows this key';
revoke all on function door_neighbour(text, uuid) from public;
grant execute on function door_neighbour(text, uuid) to wellshown_service;

alter table carried_paper drop constraint carried_paper_type_is_known;
alter table carried_paper add constraint carried_paper_type_is_known check (media_type in ('image/jpeg', 'image/png', 'application/pdf', 'application/json'));
comment on table carried_paper is 'a photo or scan of an old paper, made anew from what was sent; or the signed file of a neighbour, as it was signed';

-- +goose Down
alter table carried_paper drop constraint carried_paper_type_is_known;
alter table carried_paper add constraint carried_paper_type_is_known check (media_type in ('image/jpeg', 'image/png', 'application/pdf'));
comment on table carried_paper is 'a photo or scan of an old paper, made anew from what was sent';
drop function door_neighbour(text, uuid);
drop table neighbour_word, neighbour;
drop function neighbour_needs_a_second_person();

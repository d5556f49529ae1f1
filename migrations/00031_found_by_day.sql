-- What a coordinator opens in the morning is found by what it says, not by going through
-- all that ever was: what the index of standings says on a day, whom somebody observed
-- last, and which records lack a signature.
-- +goose Up
alter table standing_segment add column until_on date;
update standing_segment s set until_on = x.until_on
from (select agency_id, person_id, skill_id, client_key, from_on,
             coalesce(lead(from_on) over (partition by agency_id, person_id, skill_id, client_key order by from_on) - 1, 'infinity') as until_on
      from standing_segment) x
where (x.agency_id, x.person_id, x.skill_id, x.client_key, x.from_on) = (s.agency_id, s.person_id, s.skill_id, s.client_key, s.from_on);
alter table standing_segment alter column until_on set not null,
    add constraint standing_segment_ends_after_it_begins check (until_on >= from_on);
create index standing_segment_on on standing_segment (agency_id, until_on, from_on)
    include (person_id, skill_id, client_key, word, through_on);
comment on column standing_segment.until_on is 'the day before the next row of the same case; infinity: no row follows';
create index demonstration_lately on demonstration (agency_id, learner_id, performed_at desc, id desc) include (observer_id);

create table awaited_signature (
    agency_id        uuid not null,
    demonstration_id uuid not null,
    part             text not null,
    primary key (agency_id, demonstration_id, part),
    foreign key (agency_id, demonstration_id) references demonstration (agency_id, id),
    constraint signature_part_is_known check (part in ('observer', 'learner'))
);
comment on table awaited_signature is 'an index for speed and nothing more: which signatures a record lacks';
insert into awaited_signature (agency_id, demonstration_id, part)
select d.agency_id, d.id, x.part
from demonstration d cross join (values ('observer'), ('learner')) x (part)
where not exists (select from signature g where g.agency_id = d.agency_id and g.demonstration_id = d.id and g.part = x.part);
alter table awaited_signature enable row level security;
create policy by_agency on awaited_signature using (agency_id = app_agency()) with check (agency_id = app_agency());
grant select, insert, delete on awaited_signature to wellshown_service;

-- +goose StatementBegin
create function record_awaits_signatures() returns trigger
    language plpgsql as $$
begin
    insert into awaited_signature (agency_id, demonstration_id, part)
    values (new.agency_id, new.id, 'observer'), (new.agency_id, new.id, 'learner');
    return null;
end
$$;
-- +goose StatementEnd
create trigger record_awaits_signatures after insert on demonstration
    for each row execute function record_awaits_signatures();

-- +goose StatementBegin
create function signature_is_awaited_no_more() returns trigger
    language plpgsql as $$
begin
    delete from awaited_signature
    where (agency_id, demonstration_id, part) = (new.agency_id, new.demonstration_id, new.part);
    return null;
end
$$;
-- +goose StatementEnd
create trigger signature_is_awaited_no_more after insert on signature
    for each row execute function signature_is_awaited_no_more();

-- +goose Down
drop trigger signature_is_awaited_no_more on signature;
drop trigger record_awaits_signatures on demonstration;
drop function signature_is_awaited_no_more();
drop function record_awaits_signatures();
drop table awaited_signature;
drop index demonstration_lately;
alter table standing_segment drop column until_on;

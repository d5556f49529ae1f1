-- Which demonstrations a certificate rests on, kept when it is issued: a record
-- that is taken back later takes every paper with it that rests on it. And whether
-- related skills were asked for with a withdrawal, so that sending it twice can be
-- told from asking for more.
-- +goose Up
alter table certificate add column rests_on uuid[];

-- Of what was issued before, the record that brought it is known. Nothing that is
-- signed changes by this: the column is new.
alter table certificate disable trigger certificate_is_append_only;
update certificate set rests_on = array[demonstration_id];
alter table certificate enable trigger certificate_is_append_only;

alter table certificate
    alter column rests_on set not null,
    add constraint certificate_rests_on_its_record check (demonstration_id = any (rests_on));
comment on column certificate.rests_on is 'demonstrations that it rests on, oldest first, the one that brought it among them';

alter table withdrawal add column related boolean not null default false;
comment on column withdrawal.related is 'whether related skills were asked for with it; their withdrawals are rows of their own';

-- +goose Down
alter table withdrawal drop column related;
alter table certificate drop column rests_on;

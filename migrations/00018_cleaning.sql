-- Tries of sign-ins that named none of several agencies are told from others, and
-- what is past its use is found by its time.
-- +goose Up
alter table sign_in_try add column any_agency boolean not null default false;
comment on column sign_in_try.any_agency is 'of a sign-in that named none of the agencies that know the address; no sign that somebody guessed at this one';
create index sign_in_try_by_time on sign_in_try (agency_id, at);
create index session_by_end on session (agency_id, expires_at);
create index passkey_challenge_by_end on passkey_challenge (agency_id, expires_at);
create index sign_in_pending_by_end on sign_in_pending (agency_id, expires_at);

-- +goose Down
drop index sign_in_pending_by_end, passkey_challenge_by_end, session_by_end, sign_in_try_by_time;
alter table sign_in_try drop column any_agency;

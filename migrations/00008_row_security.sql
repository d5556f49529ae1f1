-- Row security on every table of a tenant, append-only triggers on all that is
-- signed, the few questions that may be asked before the agency is known, and
-- exactly the rights that the service's role needs. The role owns nothing, so
-- row security binds it whatever it does.
-- +goose Up

-- +goose StatementBegin
do $$
declare t text;
begin
    execute 'alter table agency enable row level security';
    execute 'create policy by_agency on agency using (id = app_agency()) with check (id = app_agency())';
    for t in select c.relname from pg_class c join pg_namespace n on n.oid = c.relnamespace
             where n.nspname = current_schema() and c.relkind = 'r'
               and exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'agency_id') loop
        execute format('alter table %I enable row level security', t);
        execute format('create policy by_agency on %I using (agency_id = app_agency()) with check (agency_id = app_agency())', t);
    end loop;
    foreach t in array array['licence', 'resuscitation_card', 'appointment', 'appointment_agreement', 'appointment_end', 'journal',
                             'client_parameter', 'client_equipment', 'recheck', 'demonstration', 'signature', 'withdrawal',
                             'reinstatement', 'waiver', 'exposure', 'correction', 'evidence', 'certificate'] loop
        execute format('create trigger %I before update or delete on %I for each row execute function refuse_change()', t || '_is_append_only', t);
        execute format('create trigger %I before truncate on %I for each statement execute function refuse_change()', t || '_is_never_emptied', t);
        execute format('grant select, insert on %I to wellshown_service', t);
    end loop;
    foreach t in array array['agency', 'person', 'person_role', 'credential', 'session', 'sign_in_try', 'client', 'care_team', 'skill',
                             'revision', 'sheet', 'sheet_mark', 'requirement', 'criterion', 'plan_shift', 'standing_segment'] loop
        execute format('grant select, insert, update on %I to wellshown_service', t);
    end loop;
    foreach t in array array['session', 'sign_in_try', 'sheet', 'sheet_mark', 'revision', 'plan_shift', 'standing_segment'] loop
        execute format('grant delete on %I to wellshown_service', t);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose StatementBegin
create function door_agency(wanted text)
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select a.id from agency a where a.code = wanted;
    end;
-- +goose StatementEnd
comment on function door_agency(text) is 'asked before the agency is known: which agency has this code';

-- +goose StatementBegin
create function door_sign_in(wanted text)
    returns table (agency_id uuid, agency_code text, person_id uuid, password_hash text)
    language sql stable security definer set search_path from current
    begin atomic
        select p.agency_id, a.code, p.id, c.password_hash
        from person p
            join agency a on a.id = p.agency_id
            join credential c on c.agency_id = p.agency_id and c.person_id = p.id
        where lower(p.email) = lower(wanted) and p.email <> ''
        order by a.code;
    end;
-- +goose StatementEnd
comment on function door_sign_in(text) is 'asked before the agency is known: whose e-mail is this';

-- +goose StatementBegin
create function door_session(wanted bytea)
    returns table (agency_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select s.agency_id from session s where s.token_hash = wanted;
    end;
-- +goose StatementEnd
comment on function door_session(bytea) is 'asked before the agency is known: which agency holds this session';

-- +goose StatementBegin
create function door_certificate(wanted text)
    returns table (agency_id uuid, certificate_id uuid)
    language sql stable security definer set search_path from current
    begin atomic
        select c.agency_id, c.id from certificate c where c.code = wanted;
    end;
-- +goose StatementEnd
comment on function door_certificate(text) is 'asked before the agency is known: is this certificate genuine';

-- +goose StatementBegin
create function door_agencies()
    returns table (agency_id uuid, agency_code text)
    language sql stable security definer set search_path from current
    begin atomic
        select a.id, a.code from agency a order by a.code;
    end;
-- +goose StatementEnd
comment on function door_agencies() is 'for the rebuild of the index: which agencies there are';

revoke all on function door_agency(text), door_sign_in(text), door_session(bytea), door_certificate(text), door_agencies() from public;
grant execute on function door_agency(text), door_sign_in(text), door_session(bytea), door_certificate(text), door_agencies() to wellshown_service;
grant usage on schema public to wellshown_service;

-- +goose Down
revoke usage on schema public from wellshown_service;
drop function door_agencies(), door_certificate(text), door_session(bytea), door_sign_in(text), door_agency(text);
-- +goose StatementBegin
do $$
declare t text; r record;
begin
    for r in select c.relname, tr.tgname from pg_trigger tr join pg_class c on c.oid = tr.tgrelid
             join pg_namespace n on n.oid = c.relnamespace
             where n.nspname = current_schema() and tr.tgfoid = 'refuse_change'::regproc loop
        execute format('drop trigger %I on %I', r.tgname, r.relname);
    end loop;
    for t in select c.relname from pg_class c join pg_namespace n on n.oid = c.relnamespace
             where n.nspname = current_schema() and c.relkind = 'r' and c.relrowsecurity loop
        execute format('drop policy by_agency on %I', t);
        execute format('alter table %I disable row level security', t);
        execute format('revoke all on %I from wellshown_service', t);
    end loop;
end
$$;
-- +goose StatementEnd

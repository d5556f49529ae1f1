-- Which agencies there are anything of: an agency whose row is gone still has its
-- ledger, and what lists agencies by their rows would not look at it. And where a
-- function looks for what it names never depends on who made it or who calls it.
-- +goose Up
-- +goose StatementBegin
create function door_ledgers()
    returns table (agency_id uuid, agency_code text)
    language plpgsql stable security definer set search_path = public, pg_temp as $$
declare
    t     text;
    there uuid[] := array(select a.id from agency a);
    more  uuid[];
begin
    for t in select c.relname from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attname = 'agency_id' and not a.attisdropped
             where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p') and a.atttypid = 'uuid'::regtype loop
        -- from one agency to the next by the key, however many rows each has
        execute format('with recursive one (id) as (
                            (select agency_id from public.%1$I order by 1 limit 1)
                            union all
                            select (select t.agency_id from public.%1$I t where t.agency_id > o.id order by 1 limit 1) from one o where o.id is not null)
                        select array_agg(id) from one where id is not null', t) into more;
        there := there || more;
    end loop;
    return query select f.id, a.code from (select distinct unnest(there)) f (id) left join agency a on a.id = f.id order by 2, 1;
end
$$;
-- +goose StatementEnd
comment on function door_ledgers() is 'for whoever verifies: every agency of which there is a row in any table, without a code where its own row is gone';
revoke all on function door_ledgers() from public;
grant execute on function door_ledgers() to wellshown_service;

-- +goose StatementBegin
do $$
declare f regprocedure;
begin
    for f in select p.oid from pg_proc p
             where p.pronamespace = 'public'::regnamespace and exists (select from unnest(p.proconfig) s where s like 'search\_path=%') loop
        execute format('alter function %s set search_path = public, pg_temp', f);
    end loop;
end
$$;
-- +goose StatementEnd

-- +goose Down
drop function door_ledgers();

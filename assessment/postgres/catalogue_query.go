package postgres

import "strings"

// catalogueQuery lists the rules of the schema public, and of the queue of jobs what
// could reach beyond it. It runs with nothing but
// pg_catalog in its path, so that every name of another schema is written with it.
// Goose's own table is left out, and so are the names of the database and of its
// owner. What it lists reads the same in PostgreSQL 15, 16 and 17.
var catalogueQuery = `
with ours as (
	select c.*, c.oid::regclass::text as called
	from pg_class c join pg_namespace n on n.oid = c.relnamespace and n.nspname = 'public'
	where c.relkind in ('r', 'p', 'v', 'm', 'f', 'S', 'c') and c.relname not in ('goose_db_version', 'goose_db_version_id_seq')),
functions as (
	select p.*, p.oid::regprocedure::text as called
	from pg_proc p join pg_namespace n on n.oid = p.pronamespace and n.nspname = 'public'),
elsewhere as (
	select oid, nspname from pg_namespace where nspname not in ('public', 'pg_catalog', 'information_schema') and nspname !~ '^pg_(toast|temp)'),
queue as ( -- tables of the queue of jobs, which its own migrator makes; told by names, triggers, functions and rights
	select c.*, c.oid::regclass::text as called
	from pg_class c join pg_namespace n on n.oid = c.relnamespace and n.nspname = 'river'
	where c.relkind in ('r', 'p', 'v', 'm', 'f', 'S')),
masters as ( -- who may own what is ours: whoever owns the table agency, or a superuser; never the service
	select r.oid from pg_roles r
	where r.rolname <> 'wellshown_service' and (r.rolsuper or r.oid in (select relowner from ours where relname = 'agency')))
` + strings.Join([]string{relationRules, columnRules, constraintRules, triggerRules, policyRules, functionRules, queueRules, standInRules, otherRules, grantRules}, `
union all
`)

const relationRules = `
select case c.relkind when 'r' then 'table ' when 'p' then 'partitioned table ' when 'v' then 'view ' when 'm' then 'materialized view ' when 'f' then 'foreign table ' when 'S' then 'sequence ' else 'composite type ' end
	|| c.called || case c.relpersistence when 'p' then '' else ' not permanent' end
	|| case when c.relrowsecurity then ', row security' else '' end || case when c.relforcerowsecurity then ' even for the owner' else '' end
	|| case when c.relkind in ('v', 'm') then ' as ' || pg_get_viewdef(c.oid) else '' end
	|| case when c.relowner in (select oid from masters) then '' else ', owned by ' || c.relowner::regrole end
from ours c
union all
select 'inheritance: ' || i.inhrelid::regclass || ' belongs to ' || i.inhparent::regclass
from pg_inherits i
where i.inhparent in (select oid from ours) or i.inhrelid in (select oid from ours)`

const columnRules = `
select 'column ' || c.called || '.' || a.attname || ' ' || format_type(a.atttypid, a.atttypmod)
	|| case when a.attnotnull then ' not null' else '' end
	|| case when a.attcollation not in (0, t.typcollation) then ' collate ' || a.attcollation::regcollation else '' end
	|| case a.attidentity when 'a' then ' always an identity' when 'd' then ' an identity by default' else '' end
	|| case a.attgenerated when '' then '' else ' generated' end
	|| coalesce(' default ' || pg_get_expr(d.adbin, d.adrelid), '')
from ours c
	join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
	join pg_type t on t.oid = a.atttypid
	left join pg_attrdef d on d.adrelid = a.attrelid and d.adnum = a.attnum
where c.relkind <> 'S'`

// From PostgreSQL 18 on a column's "not null" is a constraint as well; it stands with
// its column already.
const constraintRules = `
select 'constraint ' || k.conname || ' on ' || coalesce(c.called, k.contypid::regtype::text) || ': ' || pg_get_constraintdef(k.oid)
from pg_constraint k left join ours c on c.oid = k.conrelid left join pg_type t on t.oid = k.contypid
where k.contype in ('p', 'u', 'f', 'c', 'x') and (c.oid is not null or t.typnamespace = (select oid from pg_namespace where nspname = 'public'))
union all
select 'unique index on ' || c.called || ': ' || pg_get_indexdef(i.indexrelid)
from ours c join pg_index i on i.indrelid = c.oid
where i.indisunique and not exists (select from pg_constraint where conindid = i.indexrelid and contype in ('p', 'u', 'x'))`

const triggerRules = `
select 'trigger ' || g.tgname || ' on ' || c.called || ': ' || pg_get_triggerdef(g.oid)
	|| case g.tgenabled when 'O' then '' when 'D' then ', off' when 'A' then ', always' else ', for replicas only' end
from ours c join pg_trigger g on g.tgrelid = c.oid
where not g.tgisinternal or g.tgenabled <> 'O'
union all
select 'rule ' || r.rulename || ' on ' || c.called || ': ' || pg_get_ruledef(r.oid)
from ours c join pg_rewrite r on r.ev_class = c.oid
where r.rulename <> '_RETURN'
union all
select 'event trigger ' || evtname || ' on ' || evtevent || ': ' || evtfoid::regproc || case evtenabled when 'D' then ', off' else '' end
from pg_event_trigger`

const policyRules = `
select 'policy ' || p.polname || ' on ' || c.called || ' for '
	|| case p.polcmd when '*' then 'all' when 'r' then 'select' when 'a' then 'insert' when 'w' then 'update' else 'delete' end
	|| case when p.polpermissive then '' else ' restrictive' end
	|| case when p.polroles = '{0}' then '' else ' to ' || (select string_agg(case r when 0 then 'everybody' else r::regrole::text end, ', ' order by r) from unnest(p.polroles) r) end
	|| coalesce(' using ' || pg_get_expr(p.polqual, p.polrelid), '') || coalesce(' with check ' || pg_get_expr(p.polwithcheck, p.polrelid), '')
from ours c join pg_policy p on p.polrelid = c.oid`

// A function is told by its signature and the SHA-256 of what it does.
const functionRules = `
select case p.prokind when 'f' then 'function ' when 'p' then 'procedure ' when 'a' then 'aggregate ' else 'window function ' end
	|| p.called || ' (' || pg_get_function_arguments(p.oid) || ')' || coalesce(' returns ' || pg_get_function_result(p.oid), '') || ', ' || l.lanname
	|| case p.provolatile when 'i' then ', immutable' when 's' then ', stable' else '' end
	|| case when p.proisstrict then ', strict' else '' end || case when p.proleakproof then ', leakproof' else '' end
	|| case when p.prosecdef then ', with the rights of its owner' else '' end
	|| coalesce(', set ' || array_to_string(p.proconfig, ', '), '')
	|| ', sha256 ' || encode(sha256(convert_to(coalesce(pg_get_function_sqlbody(p.oid), p.prosrc) || coalesce(' in ' || p.probin, ''), 'UTF8')), 'hex')
	|| case when p.proowner in (select oid from masters) then '' else ', owned by ' || p.proowner::regrole end
from functions p join pg_language l on l.oid = p.prolang`

// Of the queue of jobs counts what could reach beyond it: what it has, what acts by
// itself, and who may what.
const queueRules = `
select 'relation of jobs ' || c.called || case c.relkind when 'r' then '' else ', kind ' || c.relkind::text end
	|| case when c.relowner in (select oid from masters) then '' else ', owned by ' || c.relowner::regrole end
from queue c
union all
select 'trigger ' || g.tgname || ' on ' || c.called || ': ' || pg_get_triggerdef(g.oid)
from queue c join pg_trigger g on g.tgrelid = c.oid
where not g.tgisinternal
union all
select 'rule ' || r.rulename || ' on ' || c.called || ': ' || pg_get_ruledef(r.oid)
from queue c join pg_rewrite r on r.ev_class = c.oid
union all
select 'function of jobs ' || p.oid::regprocedure || case when p.prosecdef then ', with the rights of its owner' else '' end
	|| ', sha256 ' || encode(sha256(convert_to(coalesce(pg_get_function_sqlbody(p.oid), p.prosrc), 'UTF8')), 'hex')
from pg_proc p join pg_namespace n on n.oid = p.pronamespace and n.nspname = 'river'`

// What has a name of ours in another schema could be taken for ours.
const standInRules = `
select 'stand-in ' || c.oid::regclass
from pg_class c join elsewhere n on n.oid = c.relnamespace
where c.relkind in ('r', 'p', 'v', 'm', 'f', 'S') and c.relname in (select relname from ours)
union all
select 'stand-in ' || p.oid::regprocedure
from pg_proc p join elsewhere n on n.oid = p.pronamespace
where p.proname in (select proname from functions)`

// Settings are those of the database, or of the service's role, by which a statement
// would mean something else.
const otherRules = `
select 'type ' || t.oid::regtype || ' as ' || coalesce(
	(select string_agg(quote_literal(enumlabel), ', ' order by enumsortorder) from pg_enum where enumtypid = t.oid),
	format_type(t.typbasetype, t.typtypmod), t.typtype::text) || case when t.typnotnull then ' not null' else '' end || coalesce(' default ' || t.typdefault, '')
from pg_type t join pg_namespace n on n.oid = t.typnamespace and n.nspname = 'public'
where t.typtype in ('b', 'd', 'e', 'r', 'm') and t.typcategory <> 'A'
union all
select 'operator ' || o.oid::regoperator || ' by ' || o.oprcode
from pg_operator o join pg_namespace n on n.oid = o.oprnamespace and n.nspname = 'public'
union all
select 'collation ' || o.oid::regcollation
from pg_collation o join pg_namespace n on n.oid = o.collnamespace and n.nspname = 'public'
union all
select 'cast from ' || castsource::regtype || ' to ' || casttarget::regtype
from pg_cast
where oid >= 16384
union all
select 'setting of the database or the service: ' || s
from pg_db_role_setting d, unnest(d.setconfig) s
where d.setdatabase in (0, (select oid from pg_database where datname = current_database()))
	and d.setrole in (0, coalesce((select oid from pg_roles where rolname = 'wellshown_service'), 0))
	and s ~* '^(search_path|session_replication_role|row_security|(session|local)_preload_libraries|app\..*)='`

// Rights are those of the service's role, and those that everybody has.
const grantRules = `
select 'right: ' || g.who || ' may ' || string_agg(lower(g.privilege_type) || case when g.is_grantable then ' and hand on' else '' end, ', ' order by g.privilege_type, g.is_grantable) || ' on ' || g.what
from (
	select c.called as what, case c.relkind when 'S' then acldefault('s', c.relowner) else acldefault('r', c.relowner) end as otherwise, c.relacl as acl, c.relowner as owner from ours c
	union all
	select c.called || '.' || a.attname, acldefault('c', c.relowner), a.attacl, c.relowner from ours c join pg_attribute a on a.attrelid = c.oid and a.attacl is not null
	union all
	select p.called, acldefault('f', p.proowner), p.proacl, p.proowner from functions p
	union all
	select c.called, case c.relkind when 'S' then acldefault('s', c.relowner) else acldefault('r', c.relowner) end, c.relacl, c.relowner from queue c
	union all
	select 'the schema ' || n.nspname, acldefault('n', n.nspowner), n.nspacl, n.nspowner from pg_namespace n where n.nspname = 'river') h,
	lateral (
		select case x.grantee when 0 then 'everybody' else x.grantee::regrole::text end as who, x.privilege_type, x.is_grantable, h.what
		from aclexplode(coalesce(h.acl, h.otherwise)) x
		where x.grantee <> h.owner and (x.grantee = 0 or x.grantee = (select oid from pg_roles where rolname = 'wellshown_service'))) g
group by g.who, g.what`

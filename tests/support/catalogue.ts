import type { Database } from '../../apps/api/src/foundation/database/database.ts'

/**
 * All that a schema consists of, a line each: tables, columns, defaults, constraints, indexes, triggers, functions,
 * policies, grants and comments, as PostgreSQL itself prints them. Where a column stands in its table is left out.
 */
export async function catalogueOf({ prisma }: Pick<Database, 'prisma'>): Promise<string[]> {
  const rows = await prisma.$queryRawUnsafe<{ line: string }[]>(CATALOGUE)
  return rows.map(({ line }) => line).toSorted()
}

export const CATALOGUE = `
  with relation as (
    select c.*, c.oid::regclass::text as name from pg_class c
     where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p', 'v', 'm', 'S')
  ), routine as (
    select p.*, p.oid::regprocedure::text as name from pg_proc p
     where p.pronamespace = 'public'::regnamespace
       and not exists (select from pg_depend d where d.objid = p.oid and d.deptype = 'e')
  )
  select 'extension ' || extname as line from pg_extension
  union all
  select 'relation ' || name || ' ' || relkind::text || ' persistence ' || relpersistence::text || ' row security ' || relrowsecurity
         || ' forced ' || relforcerowsecurity || ' options ' || coalesce(reloptions::text, '') from relation
  union all
  select 'column ' || r.name || '.' || a.attname || ' ' || format_type(a.atttypid, a.atttypmod)
         || case when a.attnotnull then ' not null' else '' end
         || ' identity ' || a.attidentity::text || ' generated ' || a.attgenerated::text
         || ' default ' || coalesce(pg_get_expr(d.adbin, d.adrelid), '')
    from relation r join pg_attribute a on a.attrelid = r.oid and a.attnum > 0 and not a.attisdropped
    left join pg_attrdef d on d.adrelid = r.oid and d.adnum = a.attnum
   where r.relkind <> 'S'
  union all
  select 'sequence ' || schemaname || '.' || sequencename || ' ' || data_type || ' ' || start_value || ' ' || increment_by
    from pg_sequences where schemaname = 'public'
  union all
  select 'constraint ' || r.name || ' ' || c.conname || ' ' || pg_get_constraintdef(c.oid)
         || ' deferrable ' || c.condeferrable from relation r join pg_constraint c on c.conrelid = r.oid
  union all
  select 'index ' || pg_get_indexdef(i.indexrelid) || ' valid ' || i.indisvalid
    from relation r join pg_index i on i.indrelid = r.oid
  union all
  select 'trigger ' || pg_get_triggerdef(t.oid) || ' enabled ' || t.tgenabled::text
    from relation r join pg_trigger t on t.tgrelid = r.oid and not t.tgisinternal
  union all
  select 'routine ' || name || ' ' || pg_get_functiondef(oid) from routine where prokind in ('f', 'p')
  union all
  select 'policy ' || tablename || ' ' || policyname || ' ' || permissive || ' ' || roles::text || ' ' || cmd
         || ' using ' || coalesce(qual, '') || ' check ' || coalesce(with_check, '')
    from pg_policies where schemaname = 'public'
  union all
  select 'grant on ' || r.name || ' to ' || g.grantee::regrole || ' ' || g.privilege_type
    from relation r, aclexplode(coalesce(r.relacl, acldefault('r', r.relowner))) g where g.grantee <> 0
  union all
  select 'grant on ' || r.name || '.' || a.attname || ' to ' || g.grantee::regrole || ' ' || g.privilege_type
    from relation r join pg_attribute a on a.attrelid = r.oid and a.attnum > 0, aclexplode(a.attacl) g where g.grantee <> 0
  union all
  select 'grant on ' || r.name || ' to ' || case g.grantee when 0 then 'public' else g.grantee::regrole::text end || ' ' || g.privilege_type
    from routine r, aclexplode(coalesce(r.proacl, acldefault('f', r.proowner))) g
  union all
  select 'comment ' || classoid::regclass || ' ' || coalesce(r.name, p.name) || ' ' || objsubid || ' ' || description
    from pg_description left join relation r on r.oid = objoid left join routine p on p.oid = objoid
   where r.oid is not null or p.oid is not null`

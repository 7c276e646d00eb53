import { createHash } from 'node:crypto'
import { createServer, type IncomingMessage } from 'node:http'
import type { AddressInfo } from 'node:net'
import pg from 'pg'

/** One SELECT a path, asked for one shop or one bond: what a server has to read at least to answer it. */
const SELECTS: Readonly<Record<string, string>> = {
  '/stock': `select c.*, l.lot_number, l.printed_expiry, l.hold_reason, p.name, p.cartridge_form, p.open_life_days, s.name as shop
               from cartridge c join lot l on l.id = c.lot_id join product p on p.id = l.product_id
               join shop s on s.id = c.shop_id
              where c.shop_id = $1 and c.state in ('sealed', 'opened') order by c.expires_at, c.id limit 50`,
  '/bond': `select b.*, j.name, r.number, r.vehicle, p.name as product,
                   (select json_agg(x) from panel_reading x where x.bond_id = b.id) as readings,
                   (select json_agg(x) from incident x where x.bond_id = b.id) as incidents
              from bond b join joint j on j.id = b.joint_id join repair_order r on r.id = j.repair_order_id
              join product p on p.id = j.product_id where b.id = $1`,
  '/board': `select r.*, (select json_agg(k order by k.starts_at) from booking k where k.resource_id = r.id
                           and k.cancelled_at is null and k.ends_at > now()) as bookings,
                    (select json_agg(b) from bond b where b.bay_id = r.id and b.state in ('applied', 'clamped')) as bonds
               from resource r where r.shop_id = $1 and r.kind in ('bay', 'oven') and r.active order by r.kind, r.name`,
  '/overview': `select s.*, (select count(*) from cartridge c where c.shop_id = s.id and c.state in ('sealed', 'opened')) as stock,
                       (select count(*) from bond b where b.shop_id = s.id and b.state in ('applied', 'clamped')) as curing,
                       (select json_agg(a) from (select * from alert a where a.shop_id = s.id and a.closed_at is null limit 8) a) as alerts
                  from shop s where s.organization_id = (select organization_id from shop where id = $1)`,
}

const SESSION = `select p.id, p.name, p.organization_id, (select json_agg(m) from membership m where m.person_id = p.id) as roles
                   from sign_in_session s join person p on p.id = s.person_id
                  where s.secret_hash = $1 and s.expires_at > now() and p.disabled_at is null`

/**
 * The least that a Node server can do for the same question: who asks, one SELECT, JSON. No row-level security, no
 * computing, no contract.
 */
export async function startBareServer(
  databaseUrl: string,
): Promise<{ base: string; stop: () => Promise<void> }> {
  const pool = new pg.Pool({ connectionString: databaseUrl, max: 20, options: '-c TimeZone=UTC' })
  const answer = async ({ url = '/', headers }: IncomingMessage) => {
    const { pathname, searchParams } = new URL(url, 'http://bare')
    const secret = /^Bearer (.+)$/.exec(headers.authorization ?? '')?.[1] ?? ''
    const hash = createHash('sha256').update(secret).digest('hex')
    const who = await pool.query({ name: 'session', text: SESSION, values: [hash] })
    if (who.rowCount !== 1) throw new Error('nobody is signed in')
    const text = SELECTS[pathname]!
    const { rows } = await pool.query({ name: pathname, text, values: [searchParams.get('id')] })
    return JSON.stringify({ items: rows })
  }
  const server = createServer((request, response) => {
    answer(request).then(
      (text) => response.writeHead(200, { 'content-type': 'application/json' }).end(text),
      (error: unknown) => response.writeHead(500).end(String(error)),
    )
  })
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve)
  })
  return {
    base: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    stop: async () => {
      server.close()
      server.closeAllConnections()
      await pool.end()
    },
  }
}

import type { labelRoutes, QueryOf } from '@clampclock/contracts'
import { LABEL_SHEETS, ownLabelText } from '@clampclock/stock'
import { message, dayText, shortMonthText, type Reader } from '@clampclock/messages'
import { shopsWith, type Actor } from '../../foundation/permissions/actor.ts'
import { Prisma } from '../../generated/prisma/client.ts'
import type { Tx } from '../../foundation/database/database.ts'
import type { Answered } from '../../foundation/http/bind.ts'
import { isoDate } from '../../foundation/http/dates.ts'
import { invalidField, ProblemError } from '../../foundation/problems/problem-error.ts'
import type { CartridgeLabel } from './cartridge-label.ts'
import { drawLabels } from './draw.ts'

/** More than a delivery has; one would otherwise print a shop's whole stock by mistake. */
const MOST = 500

interface LabelRow {
  code: string
  product_name: string
  lot_number: string
  printed_expiry: Date
  expiry_precision: 'day' | 'month'
}

export async function printLabels(
  tx: Tx,
  actor: Actor,
  query: QueryOf<typeof labelRoutes.getLabels>,
  publicUrl: string | undefined,
  reader: Reader,
): Promise<Answered> {
  const sheet = LABEL_SHEETS.find(({ id }) => id === query.sheet)
  if (!sheet)
    throw invalidField(
      'query.sheet',
      message('stock-problem.noSheetKnown'),
      message('stock-problem.oneOfFix', { names: { list: LABEL_SHEETS.map(({ id }) => id), join: 'plain' } }),
    )
  const places = sheet.columns * sheet.rows
  if (query.start > places)
    throw invalidField('query.start', message('stock-problem.placesOnSheet', { most: places }))

  const rows = await labelRows(tx, actor, query)
  if (rows.length > MOST)
    throw invalidField(
      'query',
      message('stock-problem.tooManyLabels', { most: MOST }),
      message('stock-problem.byDeliveryFix'),
    )
  const labels = rows.map((row) => toLabel(row, publicUrl, reader))
  // Whole names of the chain: what a name must be told apart from.
  const products = await tx.product.findMany({ select: { name: true } })
  const names = products.map(({ name }) => name)
  return {
    name: 'cartridge-labels.pdf',
    render: () => drawLabels(labels, sheet, query.start, { names, reader }),
  }
}

async function labelRows(
  tx: Tx,
  actor: Actor,
  { cartridgeId, receiptId, lotId, locationId }: QueryOf<typeof labelRoutes.getLabels>,
): Promise<LabelRow[]> {
  const by = [
    ...(cartridgeId ? [Prisma.sql`c.id = ${cartridgeId}::uuid`] : []),
    ...(receiptId ? [Prisma.sql`c.receipt_id = ${receiptId}::uuid`] : []),
    ...(lotId ? [Prisma.sql`c.lot_id = ${lotId}::uuid`] : []),
    ...(locationId ? [Prisma.sql`c.location_id = ${locationId}::uuid`] : []),
  ]
  if (by.length === 0)
    throw invalidField(
      'query',
      message('stock-problem.nothingToPrint'),
      message('stock-problem.whatToPrintFix'),
    )
  const mine = shopsWith(actor, 'useStock')
  const rows = await tx.$queryRaw<LabelRow[]>`
    select c.code, p.name as product_name, l.lot_number, l.printed_expiry, l.expiry_precision
      from cartridge c join lot l on l.id = c.lot_id join product p on p.id = l.product_id
     where ${Prisma.join(by, ' and ')} and c.state in ('sealed', 'opened')
       ${mine === 'all' ? Prisma.empty : Prisma.sql`and c.shop_id = any (${[...mine]}::uuid[])`}
     order by c.received_at, c.code limit ${MOST + 1}`
  if (rows.length === 0) throw new ProblemError('not-found', message('stock-problem.noneMeant'))
  return rows
}

function toLabel(row: LabelRow, publicUrl: string | undefined, { language }: Reader): CartridgeLabel {
  const day = isoDate(row.printed_expiry)
  const [year = '', month = ''] = day.split('-')
  return {
    text: ownLabelText(row.code, publicUrl),
    code: row.code,
    productName: row.product_name,
    lotNumber: row.lot_number,
    expiry:
      row.expiry_precision === 'month'
        ? `${shortMonthText(language, Number(month))} ${year}`
        : dayText(language, day),
  }
}

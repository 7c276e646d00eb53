import { bondRecordRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind, bindDocument } from '../../foundation/http/bind.ts'
import { shopById } from '../../foundation/shops/shops.ts'
import { renderRecord } from './pdf.ts'
import { picturesOf } from './pdf-photos.ts'
import { getBondRecord } from './record.ts'

export async function recordRoutes(app: App): Promise<void> {
  bind(app, contracts.getBondRecord, ({ tx, actor, params, now }) =>
    getBondRecord(tx, actor, params.bondId, now),
  )
  bindDocument(app, contracts.getBondRecordPdf, async ({ tx, actor, params, now, reader }) => {
    const record = await getBondRecord(tx, actor, params.bondId, now)
    const pictures = await picturesOf(tx, record.entries)
    const shop = await shopById(tx, record.bond.shopId)
    return {
      name: `bond-record-${record.bond.id}.pdf`,
      render: () => renderRecord(record, pictures, shop, reader, now),
    }
  })
}

import { message, say, type Reader } from '@clampclock/messages'
import type { PurchaseOrder, Shop } from '@clampclock/contracts'
import { formatMoney } from '@clampclock/quantities'
import { toCsv } from '../../foundation/http/csv.ts'
import { renderSheet } from '../../foundation/documents/pdf-sheet.ts'

/** The order list on paper. */
export function orderPdf(order: PurchaseOrder, shop: Shop, reader: Reader, now: Date): Promise<Uint8Array> {
  const money = (cents: number) => formatMoney(cents, order.currency, reader.language)
  const { number, note, placed } = order
  return renderSheet(message('order.title', { number, shop: shop.name }), shop, reader, now, (sheet) => {
    sheet.document
      .font('Helvetica-Bold')
      .fontSize(18)
      .text(sheet.say(message('order.order')))
    sheet.document.font('Helvetica').fontSize(9)
    sheet.line(message('record.clock', { zone: sheet.zone }))
    sheet.heading(message('order.orderNumbered', { number }))
    sheet.row(message('order.supplier'), order.supplierName)
    sheet.row(message('order.deliverTo'), shop.name)
    sheet.row(message('order.orderNumber'), String(number))
    sheet.row(message('order.state'), message('order.stateIs', { state: order.state }))
    const atBy = (at: Date, by: string) => message('order.atBy', { at: sheet.at(at), by })
    sheet.row(message('order.drafted'), atBy(order.createdAt, order.createdBy))
    if (placed) sheet.row(message('order.placed'), atBy(placed.at, placed.by))
    if (note) sheet.row(message('order.note'), note)
    sheet.heading(message('order.cartridges'))
    for (const { productName, cartridges, unitPriceCents } of order.lines)
      sheet.row(
        `${cartridges} ×`,
        message('order.line', {
          product: productName,
          each: money(unitPriceCents),
          all: money(cartridges * unitPriceCents),
        }),
      )
    sheet.row(message('order.inAll'), money(order.totalCents))
    sheet.line(message('order.help'))
  })
}

const COLUMNS = ['order', 'supplier', 'product', 'cartridges', 'received', 'unitPrice', 'currency'] as const

/** The order list as a table, its heading in the reader's language. */
export function orderCsv(order: PurchaseOrder, reader: Reader): Uint8Array {
  const rows = order.lines.map((line) => ({
    order: order.number,
    supplier: order.supplierName,
    product: line.productName,
    cartridges: line.cartridges,
    received: line.receivedCartridges,
    unitPrice: (line.unitPriceCents / 100).toFixed(2),
    currency: order.currency,
  }))
  const heading = COLUMNS.map((column) => [column, say(reader, 'order.column', { column })])
  return toCsv(rows, Object.fromEntries(heading) as Record<(typeof COLUMNS)[number], string>)
}

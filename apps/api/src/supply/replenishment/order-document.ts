import type { PurchaseOrder, Shop } from '@clampclock/contracts'
import { formatMoney } from '@clampclock/quantities'
import { toCsv } from '../../foundation/http/csv.ts'
import { renderSheet } from '../../foundation/documents/pdf-sheet.ts'

/** The order list on paper. */
export function orderPdf(order: PurchaseOrder, shop: Shop, now: Date): Promise<Uint8Array> {
  const money = (cents: number) => formatMoney(cents, order.currency)
  return renderSheet(`Order ${order.number}, ${shop.name}`, shop, now, (sheet) => {
    sheet.document.font('Helvetica-Bold').fontSize(18).text('Order')
    sheet.document.font('Helvetica').fontSize(9)
    sheet.heading(`Order ${order.number}`)
    sheet.row('Supplier', order.supplierName)
    sheet.row('Deliver to', shop.name)
    sheet.row('Order number', String(order.number))
    sheet.row('State', order.state)
    sheet.row('Drafted', `${sheet.instant(order.createdAt)} by ${order.createdBy}`)
    if (order.placed) sheet.row('Placed', `${sheet.instant(order.placed.at)} by ${order.placed.by}`)
    if (order.note) sheet.row('Note', order.note)
    sheet.heading('Cartridges')
    for (const { productName, cartridges, unitPriceCents } of order.lines)
      sheet.row(
        `${cartridges} ×`,
        `${productName}, ${money(unitPriceCents)} each, ${money(cartridges * unitPriceCents)}`,
      )
    sheet.row('In all', money(order.totalCents))
    sheet.line(
      'Prices as on file when the order was drafted. Send cartridges with as long a printed life as there is.',
    )
  })
}

export function orderCsv(order: PurchaseOrder): Uint8Array {
  const rows = order.lines.map((line) => ({
    order: order.number,
    supplier: order.supplierName,
    product: line.productName,
    cartridges: line.cartridges,
    received: line.receivedCartridges,
    unitPrice: (line.unitPriceCents / 100).toFixed(2),
    currency: order.currency,
  }))
  return toCsv(rows, {
    order: 'Order',
    supplier: 'Supplier',
    product: 'Product',
    cartridges: 'Cartridges',
    received: 'Received',
    unitPrice: 'Unit price',
    currency: 'Currency',
  })
}

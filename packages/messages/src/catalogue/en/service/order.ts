export const patterns = {
  'order.title': 'Order {number}, {shop}',
  'order.order': 'Order',
  'order.orderNumbered': 'Order {number}',
  'order.supplier': 'Supplier',
  'order.deliverTo': 'Deliver to',
  'order.orderNumber': 'Order number',
  'order.state': 'State',
  'order.stateIs':
    '{state, select, draft{draft} placed{placed} received{received} cancelled{cancelled} other{{state}}}',
  'order.drafted': 'Drafted',
  'order.placed': 'Placed',
  'order.atBy': '{at} by {by}',
  'order.note': 'Note',
  'order.cartridges': 'Cartridges',
  'order.line': '{product}, {each} each, {all}',
  'order.atReorderPoint': '{there} on hand and on the way, at or below the reorder point of {reorderPoint}',
  'order.aboveReorderPoint': '{there} on hand and on the way, above the reorder point of {reorderPoint}',
  'order.plannedTakeMore': 'Planned joints take {planned}, and only {there} are on hand and on the way',
  'order.nobodySaysWhere': 'Nobody has said where it is ordered',
  'order.neverUsed': 'It was never used here: there is nothing to go by',
  'order.inAll': 'In all',
  'order.help':
    'Prices as on file when the order was drafted. Send cartridges with as long a printed life as there is.',
  'order.column':
    '{column, select, order{Order} supplier{Supplier} product{Product} cartridges{Cartridges} received{Received} unitPrice{Unit price} other{Currency}}',
  'order.noLane': 'There is no way between two shops on file: add one in the set-up',
  'order.withoutPrice': 'Without a price, and so left out: {products}',
} as const

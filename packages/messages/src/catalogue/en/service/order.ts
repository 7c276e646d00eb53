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
  'order.inAll': 'In all',
  'order.help':
    'Prices as on file when the order was drafted. Send cartridges with as long a printed life as there is.',
  'order.column':
    '{column, select, order{Order} supplier{Supplier} product{Product} cartridges{Cartridges} received{Received} unitPrice{Unit price} other{Currency}}',
} as const

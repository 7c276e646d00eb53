import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/order.ts'

export const patterns: Translation<typeof english> = {
  'order.title': 'Pedido {number}, {shop}',
  'order.order': 'Pedido',
  'order.orderNumbered': 'Pedido {number}',
  'order.supplier': 'Proveedor',
  'order.deliverTo': 'Entregar en',
  'order.orderNumber': 'Número de pedido',
  'order.state': 'Estado',
  'order.stateIs':
    '{state, select, draft{borrador} placed{pedido} received{recibido} cancelled{anulado} other{{state}}}',
  'order.drafted': 'Redactado',
  'order.placed': 'Pedido el',
  'order.atBy': '{at} por {by}',
  'order.note': 'Nota',
  'order.cartridges': 'Cartuchos',
  'order.line': '{product}, {each} cada uno, {all}',
  'order.atReorderPoint':
    '{there} en existencia y en camino: en el punto de pedido de {reorderPoint} o por debajo',
  'order.aboveReorderPoint':
    '{there} en existencia y en camino: por encima del punto de pedido de {reorderPoint}',
  'order.plannedTakeMore':
    'Las uniones previstas llevan {planned}, y solo hay {there} en existencia y en camino',
  'order.nobodySaysWhere': 'Nadie ha indicado dónde se pide',
  'order.neverUsed': 'Aquí no se ha usado nunca: no hay en qué basarse',
  'order.inAll': 'En total',
  'order.help':
    'Precios registrados cuando se redactó el pedido. Envíe cartuchos con la vida impresa más larga que haya.',
  'order.column':
    '{column, select, order{Pedido} supplier{Proveedor} product{Producto} cartridges{Cartuchos} received{Recibidos} unitPrice{Precio unitario} other{Moneda}}',
  'order.noLane': 'No hay ningún trayecto entre dos talleres registrado: añada uno en la configuración',
  'order.withoutPrice': 'Sin precio, y por eso fuera: {products}',
}

import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/stock-reason.ts'

export const patterns: Translation<typeof english> = {
  'stock-reason.usedUp': 'Agotado',
  'stock-reason.nozzleChanged': 'Boquilla cambiada',
  'stock-reason.openedForJob': 'Abierto para un trabajo',
  'stock-reason.openedFor': 'Abierto para {order}, {joint}',
  'stock-reason.delivery': 'Entrega',
  'stock-reason.arrived': 'Llegado',
  'stock-reason.otherShelf': 'Movido a otro estante',
  'stock-reason.sentTo': 'A {shop}: {reason}',
  'stock-reason.lotScrapped': 'Lote desechado: {reason}',
  'stock-reason.scrapped': 'Desechado: {reason}',
  'stock-reason.ofLot': 'Su lote: {reason}',
  'stock-reason.storageWatch': 'Vigilancia del almacén',
  'stock-reason.thePlan': 'El plan',
  'stock-reason.outOfRange':
    'Fuera de su margen de almacenaje en {shop}, {place}: estuvo a {was}, y puede estar de {low} a {high}',
}

import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/overview.ts'

export const patterns: Translation<typeof english> = {
  'overview.inspectAndAcceptOrRedo': 'Inspeccionar y aceptar, o rehacer',
  'overview.moveTheBookingOrWarmTheBay': 'Mueva la reserva, o caliente el puesto',
  'overview.somebodyMustWaitOrGoElsewhere': 'Alguien debe esperar o ir a otro lugar',
  'overview.takeOffTheShelfAndDiscard': 'Retirar del estante y desechar',
  'overview.discardItNoLongerCounts': 'Desechar; ya no cuenta',
  'overview.inspectAndAcceptOrMakeTheJointAgain': 'Inspeccionar y aceptar, o rehacer la unión',
  'overview.useFirstOrSendWhereItIsNeeded': 'Usar primero, o enviar adonde haga falta',
  'overview.notToBeUsedUntilTheHoldEnds': 'No usar hasta que termine la retención',
  'overview.countsAsNoStockHere': 'Aquí no cuenta como material',
  'overview.nothingNeedsAPersonNow': 'Ahora nada necesita a una persona.',
  'overview.whatNeedsAttention': 'Qué requiere atención',
  'overview.none': 'Ninguno',
  'overview.byShop': 'Por taller',
  'overview.shop': 'Taller',
  'overview.there': '{now} allí',
  'overview.baysTaken': 'Puestos ocupados',
  'overview.of': '{occupied} de {total}',
  'overview.curing': 'Curando',
  'overview.mayBeMoved': 'Se puede mover',
  'overview.sealed': 'Sellado',
  'overview.opened': 'Abierto',
  'overview.openAlerts': 'Alertas abiertas',
  'overview.howEachShopStands': 'Cómo está cada taller',
  'overview.overview': 'Resumen',
  'overview.allShops': 'Todos los talleres',
  'overview.needsAttentionMostUrgentFirst': 'Requiere atención, lo más urgente primero',
  'overview.theOverview': 'el resumen',
  'overview.shops': 'Talleres',
  'overview.inTheShop': 'En el taller',
  'overview.mostUrgentAlerts': 'Alertas más urgentes',
  'overview.allOpenAlerts': 'Todas las alertas abiertas',
  'overview.finding.movedEarly':
    '{n, plural, one{unión liberada antes de la resistencia de manipulación} other{uniones liberadas antes de la resistencia de manipulación}}',
  'overview.finding.plannedTooEarly':
    '{n, plural, one{trabajo que se prevé mover antes de estar listo} other{trabajos que se prevé mover antes de estar listos}}',
  'overview.finding.bayClash':
    '{n, plural, one{curado se prolonga en la reserva siguiente} other{curados se prolongan en la reserva siguiente}}',
  'overview.finding.expired':
    '{n, plural, one{cartucho caducado disponible} other{cartuchos caducados disponibles}}',
  'overview.finding.openedPastOpenLife':
    '{n, plural, one{cartucho abierto más allá de su vida abierta} other{cartuchos abiertos más allá de su vida abierta}}',
  'overview.finding.openIncidents':
    '{n, plural, one{unión espera una decisión} other{uniones esperan una decisión}}',
  'overview.finding.expiresSoon':
    '{n, plural, one{cartucho a punto de caducar} other{cartuchos a punto de caducar}}',
  'overview.finding.onHold': '{n, plural, one{cartucho retenido} other{cartuchos retenidos}}',
  'overview.finding.noDispenserFits':
    '{n, plural, one{cartucho que ninguna pistola admite} other{cartuchos que ninguna pistola admite}}',
}

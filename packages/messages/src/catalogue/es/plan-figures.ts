import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/plan-figures.ts'

export const patterns: Translation<typeof english> = {
  'plan-figures.howThePlansWent': 'Cómo fueron los planes',
  'plan-figures.backToThePlan': 'Volver al plan',
  'plan-figures.csv': 'CSV',
  'plan-figures.from': 'Desde',
  'plan-figures.untilTheEndOf': 'Hasta el final de',
  'plan-figures.figures': 'las cifras',
  'plan-figures.figuresOfThePlans': 'Cifras de los planes',
  'plan-figures.onTimeRepairOrdersWithOperations':
    'A tiempo: órdenes de reparación con operaciones, prometidas para el periodo, con todo terminado para entonces. Uso: parte de las horas de apertura que está reservada. Movidas: de las operaciones publicadas para el periodo, las que se movieron después.',
  'plan-figures.shop': 'Taller',
  'plan-figures.onTime': 'A tiempo',
  'plan-figures.nonePromised': 'ninguna prometida',
  'plan-figures.bayUse': 'Uso de puestos',
  'plan-figures.ovenUse': 'Uso de hornos',
  'plan-figures.cureMean': 'Curado, media',
  'plan-figures.noneReleased': 'ninguno liberado',
  'plan-figures.releasedEarly': 'Liberados temprano',
  'plan-figures.movedAfterPublishing': 'Movidas tras publicar',
  'plan-figures.nonePublished': 'ninguna publicada',
  'plan-figures.hoursOfBonds': '{hours} h ({count, plural, one{# pegado} other{# pegados}})',
  'plan-figures.earlyOf': '{early} de {all} ({share})',
  'plan-figures.noneMoved': 'ninguna',
  'plan-figures.movedBy': '{count} ({share}), por {hours} h',
  'plan-figures.shopFromTo': '{shop}, {from} a {until}.',
  'plan-figures.allShops': 'Todos los talleres',
  'plan-figures.onTimeOf': '{share} ({onTime} de {promised})',
}

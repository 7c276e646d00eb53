import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/plan-rule.ts'

export const patterns: Translation<typeof english> = {
  'plan-rule.it': 'El lugar',
  'plan-rule.then': 'entonces',
  'plan-rule.byHand': 'una reserva hecha a mano',
  'plan-rule.bondOn': 'el pegado en {joint}',
  'plan-rule.operation': '{operation} ({order})',
  'plan-rule.vehicle': 'el vehículo ({order})',
  'plan-rule.vehicleOf': 'El vehículo de {order}',
  'plan-rule.aVehicle': 'Un vehículo',
  'plan-rule.capacity': '{place} está ocupado {when}: {names}',
  'plan-rule.unavailable': '{place} está reservado o fuera de uso {when}, y ahí estaría {first}',
  'plan-rule.calendar': '{first} empezaría en una pausa, o la cruzaría: {when}',
  'plan-rule.lag': '{second} empezaría {when}, antes de que termine {first}',
  'plan-rule.lagOfCure':
    '{second} vendría {when}, antes de que {first} alcance la resistencia de manipulación según la estimación prudente',
  'plan-rule.lagOfForecast':
    '{second} vendría {when}, justo después de {first}: se dejan {spare} por si cambia la previsión',
  'plan-rule.maxLag': '{second} empezaría {when}: sigue a {first} sin espera',
  'plan-rule.window': '{first} empezaría demasiado pronto, o acabaría más allá de lo planificado: {when}',
  'plan-rule.unplanned': '{first} no encuentra lugar detrás en las próximas cuatro semanas',
  'plan-rule.mode': '{first} necesita a alguien, o un puesto, que pueda hacerlo',
  'plan-rule.fixed': '{first} ha empezado de otro modo que lo planificado',
  'plan-rule.form': 'Algo del plan está terminado, o ya no hay que hacerlo',
  'plan-rule.hold': '{vehicle} no estaría donde está planificado {when}',
  'plan-rule.duration':
    '{first} tarda otro tiempo que lo planificado: no terminaría como está previsto, {when}',
  'plan-rule.batch': '{first} y {second} estarían juntos en {place} {when}, y no son una carga común',
  'plan-rule.setup':
    '{second} empezaría {when}, demasiado pronto después de {first}: entre medias hay que preparar {place}',
}

import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/plan-reason.ts'

export const patterns: Translation<typeof english> = {
  'plan-reason.movedByHand': '{operation} de {order}, movido a mano',
  'plan-reason.repaired': 'Reparado',
  'plan-reason.plannedAnew': 'Planificado de nuevo',
  'plan-reason.keptForCure': 'Reservado para el curado',
  'plan-reason.booked': 'Reservado',
  'plan-reason.notUnderstood':
    'El planificador encontró algo que no entiende; el registro del servicio dice qué',
  'plan-reason.refusedByChecker': 'El comprobador rechazó el plan: {what}',
}

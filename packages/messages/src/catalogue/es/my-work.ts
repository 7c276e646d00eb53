import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/my-work.ts'

export const patterns: Translation<typeof english> = {
  'my-work.underWay': 'En curso',
  'my-work.late': 'Tarde',
  'my-work.since': 'desde {startsAt}',
  'my-work.waits': 'Espera: {waitsFor}',
  'my-work.startTheBond': 'Empezar el pegado',
  'my-work.finished': 'Terminada',
  'my-work.start': 'Empezar',
  'my-work.myWork': 'Mi trabajo',
  'my-work.yourWork': 'su trabajo',
  'my-work.onIt': 'En ello',
  'my-work.toDoNow': 'Por hacer ahora',
  'my-work.nextByThePlan': 'Siguiente según el plan',
  'my-work.assignedToYou': 'Asignado a usted',
  'my-work.nothingIsPlannedForYou': 'No hay nada planificado para usted en las próximas dos semanas.',
  'my-work.repairOrders': 'Órdenes de reparación',
  'my-work.thePlanDoesNotKnowYouAsATechnician': 'El plan no lo conoce como técnico.',
  'my-work.anOwnerCanSayWhichTechnicianYouAre':
    'Un propietario puede decir qué técnico es usted: Administración, Equipo, el técnico, Persona. Lo que usted pega se muestra aquí igualmente.',
  'my-work.fromTo': '{startsAt} a {endsAt}',
  'my-work.until': 'hasta {endsAt}',
  'my-work.allOpenJobsAreUnder': 'Todos los trabajos abiertos están en',
}

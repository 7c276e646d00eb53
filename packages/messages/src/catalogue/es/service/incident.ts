import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/incident.ts'

export const patterns: Translation<typeof english> = {
  'incident.learnedAt':
    'Por lo que se supo después, estaba al {reached} de la resistencia de manipulación cuando se quitaron las prensas',
  'incident.learnedNotComputed':
    'Por lo que se supo después, no se puede calcular que estuviera listo cuando se quitaron las prensas',
  'incident.overridden': '{gate} — {reason}',
  'incident.agreed': '{result}. De acuerdo: {reason}',
  'incident.bondedAgain': 'Pegado de nuevo',
  'incident.withNote': '{what}: {note}',
  'incident.clampedUnknown': 'Fijado con prensas cuando el tiempo de trabajo no se podía calcular',
  'incident.clampedToldLate': 'Anotado después de terminar el tiempo de trabajo, como fijado antes',
  'incident.clampedLate': 'Fijado con prensas después de terminar el tiempo de trabajo',
}

import type { patterns as english } from '../en/calls.ts'
import type { Translation } from '../../keys.ts'

export const patterns: Translation<typeof english> = {
  'calls.timeHasCome': 'Se cumplió el tiempo de una unión',
  'calls.askBeforeTheClampsComeOff':
    '{joint}, {vehicle}: se cumplió su tiempo. Pregunte antes de quitar las prensas.',
  'calls.workTimeIsOver': '{joint}: el tiempo de trabajo ha terminado.',
  'calls.workTimeLeft':
    '{joint}: {minutes, plural, one{queda # minuto} other{quedan # minutos}} de tiempo de trabajo. Cierre la unión y ponga las prensas.',
  'calls.mayIMoveIt': '¿Puedo moverlo?',
  'calls.later': 'Más tarde',
}

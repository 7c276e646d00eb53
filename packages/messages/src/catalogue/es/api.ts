import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/api.ts'

export const patterns: Translation<typeof english> = {
  'api.theServiceAnsweredWithStatus': 'El servicio respondió con el estado {status}',
  'api.owner': 'Propietario',
  'api.partsManager': 'Responsable de materiales',
  'api.scheduler': 'Planificador',
  'api.technician': 'Técnico',
  'api.viewer': 'Observador',
  'api.itCouldNotBeSent': 'No se pudo enviar',
  'api.theServiceCannotBeReached':
    'No se puede llegar al servicio. No se pierde nada de lo que escribió; inténtelo de nuevo.',
  'api.notKept': 'Este dispositivo no pudo guardarlo y no se envió nada. Pulse otra vez.',
  'api.notSentAfterRefused': 'No enviado: se rechazó lo que se pulsó antes.',
}

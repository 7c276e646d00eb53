import type { patterns as english } from '../en/offline.ts'
import type { Translation } from '../../keys.ts'

export const patterns: Translation<typeof english> = {
  'offline.offline': 'Sin conexión',
  'offline.theServiceDoesNotAnswer':
    'El servicio no responde: este dispositivo no tiene red o el servicio no está en marcha.',
  'offline.nothingIsToldOfAJoint':
    'Hasta que responda no se puede decir nada de ninguna unión. Deje las prensas puestas y el vehículo donde está.',
  'offline.goesOnByItself':
    'Esta página vuelve a preguntar cada pocos segundos y sigue sola. Lo que se pulsó en una unión en este dispositivo se conserva y se envía entonces, y también un formulario empezado se conserva.',
  'offline.noAnswerFromTheServer': 'Sin respuesta del servidor',
  'offline.askAgain': 'Volver a preguntar',
}

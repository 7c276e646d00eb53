import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/help.ts'

export const patterns: Translation<typeof english> = {
  'help.title': 'Qué significan las palabras',
  'help.lede':
    'Cada término una vez, como se usa en estas pantallas. La hoja de datos y el procedimiento del fabricante del vehículo mandan sobre cualquier cifra de aquí.',
  'help.allTerms': 'Todos los términos',
  'help.handlingStrength.term': 'Resistencia de manipulación',
  'help.handlingStrength.meaning':
    'La parte de su resistencia con la que se pueden quitar las prensas de una unión y mover el vehículo; no es resistencia para circular.',
  'help.workTime.term': 'Tiempo de trabajo',
  'help.workTime.meaning':
    'Desde la boquilla hasta el último instante en que la unión se puede cerrar y prensar.',
  'help.fullCure.term': 'Curado total',
  'help.fullCure.meaning': 'La resistencia que promete la hoja de datos.',
  'help.bondLine.term': 'Línea de unión',
  'help.bondLine.meaning':
    'La capa de adhesivo entre dos paneles; su espesor es el que mantienen las microesferas de vidrio.',
  'help.skimCoat.term': 'Capa fina',
  'help.skimCoat.meaning': 'Una capa delgada sobre el metal desnudo antes del cordón.',
  'help.careful.term': 'Estimación prudente',
  'help.careful.meaning':
    'La más tardía de las tres: cada duda cuenta en contra. Las reglas se rigen por ella.',
  'help.expected.term': 'Esperado, lo más pronto',
  'help.expected.meaning': 'La estimación del medio, y aquella por la que se cuenta el tiempo de trabajo.',
  'help.estimated.term': 'Interpolado, extrapolado, estimado',
  'help.estimated.meaning':
    'Entre los puntos de la hoja de datos, más allá de ellos, o por la regla de duplicación donde solo hay un punto.',
  'help.safetyClass.term': 'Clase de seguridad S1 a S4',
  'help.safetyClass.meaning':
    'Lo que pasa si la unión falla: peligro de muerte; peligro de lesión o gran pérdida; molestia o alguna pérdida; insignificante.',
  'help.printedExpiry.term': 'Caducidad impresa',
  'help.printedExpiry.meaning': 'El día de la etiqueta; cuenta hasta su final en la zona del taller.',
  'help.openLife.term': 'Vida abierta',
  'help.openLife.meaning': 'Cuánto se puede usar un cartucho una vez abierto.',
  'help.onHold.term': 'Retenido',
  'help.onHold.meaning': 'Un lote que nadie puede usar, en ningún taller.',
  'help.quarantined.term': 'En cuarentena',
  'help.quarantined.meaning': 'Un cartucho que nadie puede usar hasta que decida alguien autorizado.',
  'help.suspect.term': 'Buena, dudosa, retirada, corregida',
  'help.suspect.meaning': 'La calidad de una lectura; una dudosa puede retrasar, y nunca ayuda.',
  'help.gate.term': 'Regla',
  'help.gate.meaning': 'Una regla que un pegado debe cumplir antes de empezar, liberarse o moverse.',
  'help.incident.term': 'Incidente',
  'help.incident.meaning': 'Algo que pasó en contra de una regla; abierto hasta que se decide.',
}

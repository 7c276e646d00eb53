import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/sheet.ts'

export const patterns: Translation<typeof english> = {
  'sheet.bothUnits': '{c} ({f})',
  'sheet.figure':
    '{figure, select, temperatureC{La temperatura} workTimeMinutes{El tiempo de trabajo} handlingTimeMinutes{El tiempo de manipulación} fullCureMinutes{El curado completo} lowestCureC{La temperatura mínima de curado} highestCureC{La temperatura máxima de curado} applicationRangeC{El rango de aplicación} serviceRangeC{El rango de servicio} points{La tabla de tiempos} other{{figure}}}',
  'sheet.figureInLine':
    '{figure, select, temperatureC{La temperatura} workTimeMinutes{El tiempo de trabajo} handlingTimeMinutes{El tiempo de manipulación} other{El curado completo}} en la línea {line}',
  'sheet.outside': '{figure}: es {value}, pero debe ser de {low} a {high}: revise la hoja de datos',
  'sheet.rangeBackwards': '{figure}: va de {low} a {high}: intercambie sus extremos',
  'sheet.lowestAboveHighest':
    'La temperatura mínima de curado ({low}) debe ser menor que la temperatura máxima de curado ({high})',
  'sheet.noPoints':
    'La tabla de tiempos está vacía: indique al menos una temperatura con sus tiempos de trabajo, de manipulación y de curado completo',
  'sheet.notAboveZero': '{figure}: es {value}, pero debe ser un número de minutos mayor que cero',
  'sheet.workLonger':
    'Línea {line}: el tiempo de trabajo ({work}) no puede ser mayor que el de manipulación ({handling})',
  'sheet.handlingLonger':
    'Línea {line}: el tiempo de manipulación ({handling}) no puede ser mayor que el curado completo ({full})',
  'sheet.temperatureTwice': 'La tabla de tiempos tiene {value} dos veces: deje una',
  'sheet.doesNotFall':
    '{figure}: no baja al subir la temperatura: {before} a {cold}, {after} a {warm}; revise ambos',
  'sheet.belowLowest':
    '{figure}: es {value}, por debajo de la temperatura mínima de curado ({limit}), donde nada cura',
  'sheet.aboveHighest':
    '{figure}: es {value}, por encima de la temperatura máxima de curado ({limit}): suba ese límite o quite el punto',
  'sheet.fahrenheit': '{value} parece °F introducido como °C: ¿se quería decir {meant}?',
  'sheet.celsius': '{value} parece °C introducido como °F: ¿se quería decir {meant}?',
  'sheet.milestone':
    '{milestone, select, workTime{Tiempo de trabajo} handlingStrength{Tiempo de manipulación} other{Curado completo}}',
  'sheet.muchFaster':
    '{what} de {time} a {temperature} es más del doble de rápido que antes: la última revisión dice {before}',
  'sheet.muchFasterThanNever':
    '{what} de {time} a {temperature} es más del doble de rápido que antes: según la última revisión allí nada cura',
  'sheet.handlingInMinutes':
    'Resistencia de manipulación tras {time} a {temperature}: ¿son horas, no minutos?',
  'sheet.span': '{low} a {high}',
  'sheet.applicationOutsideShop':
    'Ningún taller cumple un rango de aplicación de {range}: el metal en un taller está a {shop}',
  'sheet.noCureInRoom':
    'Por debajo de {lowest} nada cura según esta hoja, así que nada cura en un local a {room}',
  'sheet.cureEndsHot': 'La temperatura máxima de curado es {highest}; las hojas dan {usual}',
  'sheet.serviceBelowSun': 'La unión solo está garantizada hasta {highest}: un vehículo al sol alcanza {sun}',
}

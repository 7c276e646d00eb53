import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/finding.ts'

export const patterns: Translation<typeof english> = {
  'finding.outOfRange': '{value} está fuera de {low} a {high}',
  'finding.fahrenheit': '{value} parece {typed} anotado como °C: ¿se quiso decir {meant}?',
  'finding.celsius': '{value} parece {typed} anotado como °F: ¿se quiso decir {meant}?',
  'finding.tooFast':
    '{value} está {apart} por {side, select, above{encima} other{debajo}} de la última lectura ({previous}, {before} antes): en ese tiempo llega como mucho a {reach}',
  'finding.spike': '{value} está solo: las lecturas de alrededor están a {between}',
  'finding.stuck': '{value} durante {hours} h sin cambio, mientras otros termómetros se movían',
  'finding.standsStill':
    '{value}, y así {times} veces seguidas en {within}: ¿está parado el termómetro? Mida otra cosa con él, y el metal de nuevo',
  'finding.unchanged':
    '{value} es lo que era {before} antes, aunque el aire estaba a {air}: ¿se midió de nuevo?',
  'finding.jumped':
    '{value} está {apart} por encima de la última lectura creída ({previous}): nunca subió más de {most} de una vez. Compárelo con otro termómetro',
  'finding.apart':
    '{value} donde el termómetro del puesto dice {other}: uno de los dos está mal. Mida de nuevo el aire junto a la unión',
  'finding.aboveAir': '{value} está por encima del aire más cálido en que ha estado el metal ({air})',
  'finding.warmsInColderAir':
    '{value} está por encima de la última lectura ({previous}), aunque el aire estaba más frío ({air})',
  'finding.late': '{value} se anotó {after} después de leerse: no puede hacer que nada esté listo antes',
  'finding.outOfCalibration': '{value} lo leyó un instrumento con la calibración vencida',
  'finding.sentTwice': '{value} se anotó con {seconds} s de diferencia del mismo valor: ¿se midió de nuevo?',
  'finding.twoValues': '{value} y {other} llegaron para el mismo instante: se guarda el más frío',
  'finding.inDoubt': 'En duda: solo puede retrasar',
  'finding.withdrawn': 'Retirada: no cuenta',
  'finding.replaced': 'Sustituida: no cuenta',
}

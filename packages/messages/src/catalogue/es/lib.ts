import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/lib.ts'

export const patterns: Translation<typeof english> = {
  'lib.ago': 'hace {words}',
  'lib.minutes': '{n, plural, one{# minuto} other{# minutos}}',
  'lib.hours': '{n, plural, one{# hora} other{# horas}}',
  'lib.days': '{n, plural, one{# día} other{# días}}',
  'lib.ahead': 'en {words}',
  'lib.range': '{from} a {until}',
  'lib.by': '{what} por {who}',
  'lib.clampSets': '{clampSets, plural, one{# juego de prensas} other{# juegos de prensas}}',
}

import type { patterns as english } from '../en/preferences.ts'
import type { Translation } from '../../keys.ts'

export const patterns: Translation<typeof english> = {
  'preferences.save': 'Guardar',
  'preferences.temperatures': 'Temperaturas',
  'preferences.volumes': 'Volúmenes',
  'preferences.millilitres': 'Mililitros, mL',
  'preferences.fluidOunces': 'Onzas líquidas de EE. UU., fl oz',
  'preferences.lengths': 'Longitudes',
  'preferences.millimetres': 'Milímetros, mm',
  'preferences.inches': 'Pulgadas, in',
  'preferences.timeOfDay': 'Hora del día',
  'preferences.clock24': '24 horas, 14:05',
  'preferences.clock12': 'a. m. y p. m., 2:05 p. m.',
  'preferences.firstDayOfTheWeek': 'Primer día de la semana',
  'preferences.likeTheBrowser': 'Como el navegador: {what}',
}

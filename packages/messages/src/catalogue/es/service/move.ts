import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/move.ts'

export const patterns: Translation<typeof english> = {
  'move.notClamped': '{joint}: la unión aún no está prensada',
  'move.notClampedFix': 'Ciérrela y prénsela, y luego déjela curar',
  'move.cannotCompute': '{joint}: no se puede calcular: no está listo',
  'move.cannotComputeFix': 'Mire la alerta: falla una lectura, un termómetro o la hoja de datos',
  'move.fixApart':
    'Mida el metal con otro termómetro: el termómetro del puesto y el que está junto a la unión discrepan',
  'move.fixUnproven':
    'Mida el metal con el mismo termómetro y con otro en un cuarto de hora: aún nada lo confirma',
  'move.fixUnprovenReady':
    'Mida el metal con el mismo termómetro y con otro en un cuarto de hora: aún nada lo confirma; entonces puede estar listo {ready}',
  'move.fixSuspect': 'Mida el metal: hay lecturas en duda, y solo pueden retrasar',
  'move.fixAir':
    'Mida el metal de nuevo: el aire junto a la unión es lo que muestra el termómetro del puesto, y eso no confirma nada',
  'move.fixAirReady':
    'Mida el metal de nuevo: el aire junto a la unión es lo que muestra el termómetro del puesto, y eso no confirma nada; entonces puede estar listo {ready}',
  'move.notReady':
    '{joint}: al {reached} de la resistencia de manipulación según la estimación prudente; listo {ready}',
  'move.notReadyTooCold':
    '{joint}: al {reached} de la resistencia de manipulación según la estimación prudente; a esta temperatura no cura',
  'move.notReadyBeyondForecast':
    '{joint}: al {reached} de la resistencia de manipulación según la estimación prudente; no en los próximos días',
  'move.notReadyNoTemperature':
    '{joint}: al {reached} de la resistencia de manipulación según la estimación prudente; nada dice a qué temperatura se queda',
  'move.onOtherOrder': 'En {order}, del mismo vehículo: {says}',
  'move.warmFix': 'Caliente el puesto o el panel',
  'move.measureLaterFix': 'Mida el panel, {apart} o más después de la lectura anterior',
  'move.measureFix': 'Mida el panel',
  'move.tooFewReadings':
    '{joint}: {good} de {needed} lecturas de panel con un instrumento con calibración vigente, que pide la clase S1',
}

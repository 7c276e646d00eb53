import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/note.ts'

export const patterns: Translation<typeof english> = {
  'note.slowerSheet':
    'La revisión {slower} de la hoja de datos de {product} es más lenta que la revisión {revision}, con la que se hizo: cuenta la más lenta',
  'note.gapBridged':
    'Sin lectura de {from} a {to}: la estimación prudente la bajó tanto como puede haber bajado este lugar, {margin} por debajo del extremo más frío.',
  'note.staleTemperature':
    'La última lectura es de {from}: la estimación prudente la ha dejado caer {margin} desde entonces. Una nueva lectura de panel la afinaría.',
  'note.toldLate':
    'Anotado mucho después de cuando se dice que se aplicó ({applied}): la estimación prudente cuenta desde {countsFrom}.',
  'note.noTemperature': 'No se ha leído ninguna temperatura: no se puede prometer nada. Mida el panel.',
  'note.noForecast': 'No hay previsión para este puesto: solo se da lo ya alcanzado.',
  'note.forecastEnds': 'La previsión termina {to}, antes de {milestones}.',
  'note.milestone':
    '{milestone, select, workTime{el final del tiempo de trabajo} handlingStrength{la resistencia de manipulación} other{el curado total}}',
  'note.readingsAfterNow': '{count} lecturas tienen una hora posterior a ahora y se dejaron fuera.',
  'note.suspectReadings':
    '{count, plural, one{# lectura está} other{# lecturas están}} en duda: pueden retrasar, pero nunca adelantar. Mida el panel de nuevo.',
  'note.panelLagUnknown':
    'No se sabe con qué rapidez sigue este panel al aire del puesto: la estimación prudente toma lo peor. Mida el metal de nuevo.',
  'note.metalNotFollowingAir':
    'El metal marcó {temperature} {at}, y el aire del puesto no lo explica: la estimación prudente tomó lo más frío desde la lectura anterior.',
  'note.airAtJointApart':
    'El aire junto a la unión marcó {joint} {at}, el termómetro del puesto {bay}: la estimación prudente toma que el {warmer, select, bay{del puesto} other{que está junto a la unión}} marca {apart} de más. Mida el metal con otro termómetro, y haga comparar los dos.',
  'note.metalUnproven':
    'Nada confirma el termómetro que leyó el metal: la estimación prudente toma que el metal entró tan frío como puede haber estado. Mida el metal con él y con otro termómetro en un cuarto de hora. La próxima vez mida el aire junto a la unión con el que lee el metal.',
  'note.metalUnprovenReady':
    'Nada confirma el termómetro que leyó el metal: la estimación prudente toma que el metal entró tan frío como puede haber estado. Mida el metal con él y con otro termómetro en un cuarto de hora: si eso lo confirma, puede estar listo {ready}. La próxima vez mida el aire junto a la unión con el que lee el metal.',
  'note.airUnproven':
    'El aire junto a la unión es lo que muestra el termómetro del puesto, así que ninguno confirma al otro: la estimación prudente no deja que el aire caliente el metal más de lo medido, {by} por debajo de lo que marca. Mida el metal de nuevo cuando se haya calentado.',
  'note.airUnprovenReady':
    'El aire junto a la unión es lo que muestra el termómetro del puesto, así que ninguno confirma al otro: la estimación prudente no deja que el aire caliente el metal más de lo medido, {by} por debajo de lo que marca. Mida el metal de nuevo cuando se haya calentado: si eso lo confirma, puede estar listo {ready}.',
  'note.panelStartAssumed': 'Se toma que el panel empezó a {temperature}, el aire del puesto.',
  'note.stalled':
    'Por debajo de {lowest} de {from} a {to} según la estimación prudente: ahí no cura en absoluto.',
  'note.capped': 'Por encima de {highest} de {from} a {to}: más calor no cuenta.',
  'note.extrapolated':
    'Contaron temperaturas de {coldest} a {warmest}; la hoja de datos publica de {low} a {high}.',
  'note.estimatedFromDoublingRule':
    'La hoja de datos da una sola temperatura ({published}): lo demás sigue la regla de que el curado va el doble de rápido por cada {step}.',
  'note.outsideServiceRange': '{temperature} {at} está fuera del rango admitido de {low} a {high}.',
}

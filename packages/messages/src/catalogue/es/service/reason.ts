import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/reason.ts'

export const patterns: Translation<typeof english> = {
  'reason.heldOpen': '{joint}: el tiempo de trabajo ha terminado y no está prensado',
  'reason.heldOpenFix': 'Abandónelo, o registre cuándo se prensó',
  'reason.heldReleasedEarly': '{joint}: se liberó antes de la resistencia de manipulación',
  'reason.heldAppliedAgainstRefusal': '{joint}: el adhesivo se aplicó aunque una regla lo negó',
  'reason.heldInspectFix': 'Haga que alguien autorizado la inspeccione y acepte, o rehaga la unión',
  'reason.heldClosedLate': '{joint}: se prensó, o se movió, después de terminar el tiempo de trabajo',
  'reason.heldClosedLateFix': 'Abandónelo, o haga que alguien autorizado lo inspeccione y acepte',
  'reason.heldLifted': '{joint}: los paneles se separaron, hay adhesivo en ambas caras',
  'reason.heldAbandoned': '{joint}: el intento se abandonó, su adhesivo está en la unión',
  'reason.heldScrapeFix': 'Raspe ambas caras y pegue de nuevo, o haga que alguien autorizado la inspeccione',
  'reason.heldToBeRedone': '{joint}: hay que rehacerla',
  'reason.heldToBeRedoneFix':
    'Péguela de nuevo; una vez liberada con resistencia, el vehículo se puede mover',
  'reason.sheetNotApproved':
    'La hoja de datos de {product}, revisión {revision}, aún no está aprobada: haga que se compare con la impresa y se apruebe',
  'reason.several': '{all}',
  'reason.comesFirst': '{operation} va antes, y no está terminado',
  'reason.clash': 'Cura hasta {until}; {next} está reservado aquí desde {from}',
  'reason.clashNoEnd': 'Cura sin final a la vista; {next} está reservado aquí desde {from}',
  'reason.named': '{name}: {what}',
  'reason.planNoPlace': 'no encontró lugar en las próximas cuatro semanas',
  'reason.planCureEndless':
    '{name} no alcanza la resistencia de manipulación en las próximas cuatro semanas según la estimación prudente',
  'reason.planEndless': '{name} no termina en las próximas cuatro semanas',
  'reason.planPeople': '{name} necesita {technicians} técnicos; el taller tiene {able}',
  'reason.planPeopleSkilled':
    '{name} necesita {technicians} técnicos con la capacidad {skill, select, body{carrocería} structural{estructural} aluminium{aluminio} welding{soldadura} paint{pintura} fitting{montaje} other{{skill}}}; el taller tiene {able}',
  'reason.planClampSets':
    '{name} necesita {clampSets} juegos de prensas de un mismo tipo; como mucho hay {most}',
  'reason.planPlace': 'no hay {place, select, oven{horno} other{puesto}} para {names}',
  'reason.planPlaceWith': 'no hay {place, select, oven{horno} other{puesto}} con {attributes} para {names}',
  'reason.attribute':
    '{attribute, select, lift{elevador} frameBench{bancada} heat{calor} dustFree{espacio sin polvo} other{{attribute}}}',
  'reason.planNoSheet': 'un producto suyo no tiene hoja de datos registrada',
  'reason.planNoForecast':
    'ningún puesto tiene un termómetro con lecturas, así que nadie puede decir cuánto tarda el curado',
  'reason.ofLine': 'Línea {line}: {what}',
  'reason.andMore': '{what}, y {more} más',
  'reason.ofOrder': '{operation} de {order}: {what}',
  'reason.planAgainFix': 'Planifique de nuevo',
  'reason.planAgainAndPublishFix': 'Planifique de nuevo, y publique ese plan',
  'reason.operationsChanged': 'Las operaciones de {order} se cambiaron después de hacer este plan',
  'reason.vehiclesDropped':
    '{vehicles, plural, one{# vehículo omitido} other{# vehículos omitidos}}: {names}{more, plural, =0{} other{; y # más}}',
  'reason.leftOutFix': 'Planifique de nuevo cuando se pueda planificar, o confirme que se omite',
  'reason.overdue': '{operation} de {order} debía empezar {at}, y no ha empezado',
  'reason.lookedAnew': 'Se buscó de nuevo con el que caducó',
  'reason.givenBack': 'Devuelto por {by}',
  'reason.orderIsDone': 'La orden de reparación está terminada',
  'reason.bondedWithIt': 'La unión se pegó con él',
  'reason.bondedWithAnother': 'La unión se pegó con otro',
}

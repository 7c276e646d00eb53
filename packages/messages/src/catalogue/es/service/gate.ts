import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/gate.ts'

export const patterns: Translation<typeof english> = {
  'gate.anotherShop': 'El cartucho {code} está en otro taller',
  'gate.takeOfThisShopFix': 'Tome uno de este taller',
  'gate.twice': 'nombra un cartucho dos veces',
  'gate.twiceFix': 'Dé su cantidad entera una vez',
  'gate.beforeReceived': 'es antes de que se recibiera el cartucho {code} ({at})',
  'gate.beforeOpened': 'es antes de que se abriera el cartucho {code} ({at})',
  'gate.whichInstantFix':
    'Dé el momento en que el adhesivo salió de la boquilla, o nombre el cartucho que se usó',
  'gate.noSheet': 'No hay hoja de datos de {product} registrada: no se puede calcular ningún tiempo',
  'gate.noSheetFix': 'Registre primero la hoja de datos',
  'gate.sheetNotValidYet':
    'La hoja de datos de {product}, revisión {revision}, vale desde el {from}, y ninguna anterior está aprobada',
  'gate.sheetNotValidYetFix': 'Registre la revisión que vale hasta entonces, y haga que se apruebe',
  'gate.sheetNotApproved':
    'La hoja de datos de {product}, revisión {revision}, aún no está aprobada: no cuenta',
  'gate.sheetNotApprovedFix':
    'Haga que otra persona la compare con la impresa y la apruebe, en la página del producto',
  'gate.noBay': 'no nombra ningún puesto de este taller',
  'gate.noProcedure': 'No hay registrado ningún procedimiento del fabricante del vehículo para {joint}',
  'gate.noProcedureFix': 'Consúltelo, y registre documento, revisión y fecha',
  'gate.otherProduct': 'El cartucho contiene {held}; la unión está prevista con {planned}',
  'gate.otherProductFix': 'Tome un cartucho de {planned}',
  'gate.mixedProducts':
    'Los cartuchos son de productos distintos: no curan igual, y puede que no se peguen entre sí',
  'gate.mixedProductsFix': 'Tome cartuchos de un solo producto',
  'gate.furtherFix': 'Nombre otro cartucho para el resto',
  'gate.anotherFix': 'Tome otro cartucho',
  'gate.noDispenser': 'no nombra ninguna pistola de este taller',
  'gate.dispenserDoesNotFit': '{dispenser} admite {forms}; el cartucho es {form}',
  'gate.dispenserDoesNotFitFix':
    'Tome una pistola que lo admita: otra puede no mantener la proporción de mezcla',
  'gate.surfaces': 'Las superficies no están preparadas como dice la hoja de datos',
  'gate.dryFit': 'La prueba en seco no está hecha, o las prensas no están dispuestas',
  'gate.skimCoat': 'El metal desnudo no tiene capa fina: se corroería donde nadie llega',
  'gate.preparedFix': 'Hágalo antes: el reloj empieza con el adhesivo',
  'gate.panelTooCold':
    'El panel está a {panel} (± {accuracy}), por debajo de los {limit} de la hoja de datos',
  'gate.panelTooColdFix': 'Caliente el panel',
  'gate.panelTooHot': 'El panel está a {panel} (± {accuracy}), por encima de los {limit} de la hoja de datos',
  'gate.panelTooHotFix': 'Deje enfriar el panel',
  'gate.nearDewPoint':
    'El panel está a {panel} (± {accuracy}): {margin} por encima del punto de rocío de {dewPoint}, y hacen falta {required}',
  'gate.belowDewPoint':
    'El panel está a {panel} (± {accuracy}): {margin} por debajo del punto de rocío de {dewPoint}; hacen falta {required} por encima',
  'gate.nearDewPointFix': 'Caliente el panel, o seque el aire',
  'gate.qualificationEnded':
    'La cualificación de {person} para {held} se dio por terminada el {on}; la unión es de clase {asked}',
  'gate.qualificationExpired':
    'La cualificación de {person} para {held} vale del {from} al {until}; la unión es de clase {asked}',
  'gate.notQualified': '{person} no tiene cualificación registrada para una unión de clase {asked}',
  'gate.qualifiedFix': 'Que lo haga alguien cualificado',
  'gate.noInstrument':
    'No se dice qué termómetro tomó la temperatura del panel; una unión de clase {asked} pide uno con calibración vigente',
  'gate.noInstrumentFix': 'Nombre uno del registro del taller',
  'gate.calibrationOver': '{instrument} ({serial}) tenía calibración hasta el {until}',
  'gate.neverCalibrated': '{instrument} ({serial}) nunca se calibró',
  'gate.calibrationFix': 'Tome un instrumento con calibración vigente',
  'gate.bayTaken': '{order}, {vehicle}, está en {bay}, reservado hasta {until}',
  'gate.bayCuring': '{order}, {vehicle}, está en {bay}, curando',
  'gate.bayTakenFix': 'Elija el puesto en que está {order}, o termine antes la reserva de {taken}',
  'gate.standsElsewhere': '{joint} de {order} cura en {bay}: el vehículo está ahí',
  'gate.standsElsewhereFix': 'Elija {bay}',
  'gate.needsPermission': 'Seguir aunque una regla lo niegue necesita el permiso takeResponsibility',
  'gate.roleLacks': 'Su función no incluye takeResponsibility en este taller',
  'gate.askOwnerFix': 'Pregunte a un propietario',
  'gate.mendOrConfirmFix':
    'Corríjala, o confírmela: entonces solo cuenta donde retrasa, hasta que una segunda lectura la confirme',
  'gate.movedLate':
    '{joint}: el tiempo de trabajo puede haber terminado; si se mueve ahora, se rompe lo que empezó a curar',
  'gate.movedLateFix':
    'Déjela como está. Si ya se movió, diga qué pasó: alguien autorizado tendrá que mirar la unión',
  'gate.movedReleased': '{joint}: las prensas están quitadas; si se mueve ahora, se rompe lo que ya curó',
  'gate.movedUnknown':
    '{joint}: el tiempo de trabajo no se puede calcular, así que nadie puede decir que aún corre',
}

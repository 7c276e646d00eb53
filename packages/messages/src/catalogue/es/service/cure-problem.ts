import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/cure-problem.ts'

export const patterns: Translation<typeof english> = {
  'cure-problem.belowNeed': '{recorded} registrados, esta unión necesita {needed}',
  'cure-problem.shortAmountFix':
    'Corrija la cantidad, o envíe shortAmount con el motivo por el que se aplicó menos',
  'cure-problem.beforeAttemptOver': 'es anterior al final del intento precedente ({at})',
  'cure-problem.newNozzleFix': 'Indique el instante en que el adhesivo nuevo salió de la boquilla',
  'cure-problem.hygrometerNotNamed': 'es el higrómetro, y no se nombra ninguno: indique body.hygrometerId',
  'cure-problem.clampedAlready': '{joint} ya está con prensas',
  'cure-problem.bondIs':
    'La unión pegada en {joint} ya está {state, select, released{liberada} abandoned{abandonada} applied{aplicada} clamped{prensada} other{{state}}}',
  'cure-problem.beforeWhatItFollows': 'es anterior a {at}, a lo que debe seguir',
  'cure-problem.readingWas':
    'La lectura ya estaba {quality, select, withdrawn{retirada} corrected{corregida} other{{quality}}}',
  'cure-problem.bondRunning': 'Ya hay un pegado en curso en {joint}',
  'cure-problem.abandonFirstFix': 'Abandónelo primero: el reloj vuelve a empezar con un nuevo intento',
  'cure-problem.expiryOutsideYears': 'lleva a una caducidad fuera de los años 0 a 9999',
  'cure-problem.checkReadingsFix': 'Revise las lecturas',
  'cure-problem.stillCures': 'El adhesivo de {joint} todavía cura: aún no hay nada que inspeccionar',
  'cure-problem.inspectLaterFix': 'Inspecciónela cuando se hayan quitado sus prensas',
  'cure-problem.nobodyCanSayReady':
    'Nadie puede decir cuándo habrá alcanzado {joint} la resistencia de manipulación: hace demasiado frío, o no se puede calcular',
  'cure-problem.cannotHaveReached':
    '{joint} no puede haber alcanzado aún la resistencia de manipulación: según la estimación prudente la alcanza el {at}, si hubiera seguido en su puesto',
  'cure-problem.inspectOnceFix': 'Inspecciónela cuando la haya alcanzado, o haga que se repita',
  'cure-problem.secondIsAnother': 'La segunda persona es otra',
  'cure-problem.madeJoint': '{person} hizo la unión',
  'cure-problem.recordedInspection': '{person} registró la inspección',
  'cure-problem.anotherEntitledFix': 'Que la mire otra persona que pueda asumir la responsabilidad',
  'cure-problem.overriderResponsible':
    'Quien anuló la regla asumió entonces la responsabilidad: no hay nada que decidir',
  'cure-problem.disposedAlready': 'Alguien ya lo ha decidido',
  'cure-problem.photoAsked': 'lo pide la clase {class}',
  'cure-problem.addPhotoFix': 'Añada una foto de la unión',
  'cure-problem.notQualifiedHere':
    '{person} no está cualificado para una unión de clase {class}, o no trabaja en este taller',
  'cure-problem.nameQualifiedFix': 'Nombre a alguien cualificado para ello',
  'cure-problem.photoTooLarge': 'supera 1 MB',
  'cure-problem.scaleDownFix': 'Reduzca su tamaño',
  'cure-problem.noPicture': 'no es {type}',
  'cure-problem.sendPictureFix': 'Envíe una imagen JPEG o PNG',
  'cure-problem.fewPixels': 'solo tiene {width} × {height} píxeles',
  'cure-problem.pixelsFix': 'Envíe una foto de al menos {least} × {least}',
  'cure-problem.bondNotComputed': 'El pegado en {joint} no se puede calcular: no está listo',
  'cure-problem.vehicleLeft': 'La orden de reparación {number} está terminada: su vehículo se ha ido',
  'cure-problem.openOrderFix': 'Vuelva a abrir la orden primero',
  'cure-problem.stillCuringOnOrder':
    '{bonds, plural, one{Un pegado todavía cura} other{# pegados todavía curan}} en ella',
  'cure-problem.releaseFirstFix': 'Libérelos o abandónelos primero',
  'cure-problem.clockFix': 'Ponga en hora el termómetro, y envíe los instantes con su desfase',
  'cure-problem.readingInFuture': 'La lectura del {at} está en el futuro',
  'cure-problem.loggerClockFix': 'Ponga en hora el registrador, y escriba los instantes con su desfase',
  'cure-problem.otherThermometerFix': 'Envíe al termómetro que cuelga ahora allí, o añádalo en Equipo',
  'cure-problem.checkFahrenheitFix': 'Compruebe si está en °F, y si el termómetro está averiado',
  'cure-problem.outOfUseAlready': '{name} ya está fuera de uso',
  'cure-problem.noOtherThermometer': 'no nombra ningún otro termómetro que cuelgue en el mismo lugar',
  'cure-problem.addNewFirstFix': 'Añada primero el nuevo',
  'cure-problem.doubtedAlready': 'Ya se duda de {name}',
  'cure-problem.notDoubted': 'No se duda de {name}',
  'cure-problem.noReadingInSpan': '{name} no tiene en ese período ninguna lectura que cuente',
  'cure-problem.manyReadingsBefore': 'tiene más de {most} lecturas antes',
  'cure-problem.correctInPartsFix': 'Corríjalo por partes',
  'cure-problem.readingsOutside': 'daría lecturas fuera de {low} a {high}',
  'cure-problem.withdrawInsteadFix': 'Retírelas en su lugar',
  'cure-problem.noBayOrOven': 'no nombra ningún puesto ni horno de este taller',
  'cure-problem.notRoomAir': 'es {value}, y debe ser de {low} a {high}: nadie trabaja en aire fuera de eso',
}

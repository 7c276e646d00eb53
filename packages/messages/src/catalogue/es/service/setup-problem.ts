import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/setup-problem.ts'

export const patterns: Translation<typeof english> = {
  'setup-problem.nobodyHandlesAlerts': 'no nombra a nadie que atienda alertas en ese taller',
  'setup-problem.snoozeWithin': 'debe estar dentro de {days} días',
  'setup-problem.resolveFix': 'Resuélvala en su lugar',
  'setup-problem.dangerNotSnoozed': 'Lo que puede herir a alguien no se aparta de la vista',
  'setup-problem.dealWithFix': 'Ocúpese de ello, o asígnelo a alguien que lo haga',
  'setup-problem.incidentBehind': 'Hay un incidente detrás',
  'setup-problem.disposeFix': 'Decida el incidente en la orden: eso cierra la alerta',
  'setup-problem.alertClosed': 'La alerta ya está cerrada',
  'setup-problem.tokenNoMail': 'Un token no tiene dirección de correo',
  'setup-problem.bearer': 'Authorization debe ser "Bearer" y un token',
  'setup-problem.signInHeld':
    'Demasiados intentos de iniciar sesión: inténtelo de nuevo en {seconds, plural, one{# segundo} other{# segundos}}',
  'setup-problem.hashingBusy':
    'Demasiadas personas inician sesión en este momento: inténtelo de nuevo en un momento',
  'setup-problem.ownPassword': 'Su propia contraseña no se cambia aquí',
  'setup-problem.ownPasswordFix': 'Cámbiela en su propio acceso, donde se pide la actual',
  'setup-problem.presentWrong': 'no es la contraseña actual',
  'setup-problem.passwordSame': 'es la contraseña que ya tiene',
  'setup-problem.passwordCommon':
    'está entre las contraseñas que se prueban primero, o se diferencia de una en pocos signos',
  'setup-problem.passwordFewSigns': 'apenas tiene más de un signo',
  'setup-problem.passwordOfNames':
    'es poco más que un nombre, una dirección de correo o el nombre de este servicio',
  'setup-problem.passwordFix': 'Junte cuatro o más palabras que no tengan nada que ver entre sí',
  'setup-problem.temporaryFix': 'La que tiene la puso otra persona',
  'setup-problem.tokenNoSession': 'Un token no tiene contraseña ni accesos propios',
  'setup-problem.foreignOrigin': 'La solicitud se ha enviado desde una página de otro sitio',
  'setup-problem.foreignOriginFix':
    'Abra este servicio por su propia dirección; detrás de un proxy que cambia el host, ponga PUBLIC_URL',
  'setup-problem.noSuchShop': 'nombra un taller que no existe',
  'setup-problem.lastOwner': 'La cadena quedaría sin propietario: nombre antes a otro',
  'setup-problem.tokenNoLanguage': 'Un token no tiene idioma ni unidades propias',
  'setup-problem.qualificationEnded': 'La cualificación ya estaba terminada',
  'setup-problem.setupCodeWrong': 'El código de instalación no es el que el servidor mostró al arrancar',
  'setup-problem.notSetupCode': 'no es el que el servidor mostró al arrancar',
  'setup-problem.firstOwnerExists': 'El primer propietario ya existe: inicie sesión',
  'setup-problem.onlyPersonMakesTokens': 'Solo una persona crea tokens',
  'setup-problem.reachesBeyond': 'Esto alcanza a un taller, o a todos, de los que usted no es propietario',
  'setup-problem.moreThanYouHave':
    'No puede dar más de lo que tiene: {holder, select, owner{propietario} partsManager{responsable de materiales} scheduler{planificador} technician{técnico} viewer{observador} sensor{sensor} integration{integración} other{{holder}}} lleva permisos que a usted le faltan allí',
  'setup-problem.personElsewhere':
    'Esta persona tiene un rol en otro taller o en todos: nombre, contraseña e inicio de sesión corresponden a un propietario de allí',
  'setup-problem.noInstrument': 'no nombra ningún instrumento de este taller',
  'setup-problem.otherKindOfInstrument': '{name} es del tipo {is}, no {asked}',
  'setup-problem.bayOrOvenOnly': 'son solo para un puesto o un horno',
  'setup-problem.technicianOnly': 'son solo para un técnico',
  'setup-problem.printedDayFix': 'Indique el día impreso en la hoja; el día desde el que cuenta es validFrom',
  'setup-problem.beforeIssued': 'es anterior al día en que se emitió la hoja',
  'setup-problem.validFromFix':
    'Indique un día igual o posterior a issuedOn, o ninguno: entonces cuenta en cuanto se apruebe',
  'setup-problem.yearAhead': 'está a más de un año',
  'setup-problem.lookAtYearFix': 'Mire el año; registre la hoja cuando esté más cerca',
  'setup-problem.revisionDecided':
    'La revisión {revision} ya fue {outcome, select, approved{aprobada} other{rechazada}} por {by}',
  'setup-problem.ownRevision':
    'Usted mismo registró la revisión {revision}: hace falta otra persona para aprobarla',
  'setup-problem.askToCompareFix': 'Pida a {people} que la compare con el impreso',
  'setup-problem.ownRevisionToday':
    'Usted registró hoy la revisión {revision}: donde nadie más podría aprobarla, hace falta una segunda mirada otro día',
  'setup-problem.compareTomorrowFix': 'Compare mañana de nuevo cada cifra con el impreso',
  'setup-problem.ownRevisionCompare':
    'Usted mismo registró la revisión {revision}: compare de nuevo cada cifra con el impreso',
  'setup-problem.secondLookFix': 'Envíe secondLook cuando lo haya hecho',
  'setup-problem.pdfTooLarge': 'supera 5 MB',
  'setup-problem.pdfPagesFix': 'Envíe solo las páginas de este producto, o escanéelo más pequeño',
  'setup-problem.noPdf': 'no es un PDF',
  'setup-problem.sendPdfFix': 'Envíe el PDF del fabricante',
  'setup-problem.pdfCut': 'es un PDF sin final: quedó cortado',
  'setup-problem.pdfAgainFix': 'Consígalo de nuevo, y envíelo entero',
  'setup-problem.documentsMost': 'Ya hay {most} documentos con esta revisión',
  'setup-problem.gtinOfOther': 'El GTIN de la etiqueta corresponde a {product}, que es otro producto',
  'setup-problem.gtinOfOtherFix': 'Elija {product}, o quítele primero el GTIN si eso es erróneo',
  'setup-problem.checkDigit': 'El dígito de control de {digits} es erróneo',
  'setup-problem.typeAgainFix': 'Escanéelo o escríbalo de nuevo',
  'setup-problem.compareOrConfirmFix': 'Compárelo con la hoja impresa; confírmelo si la hoja lo dice',
  'setup-problem.sheetWrong': 'La hoja de datos no puede ser correcta: {what}',
}

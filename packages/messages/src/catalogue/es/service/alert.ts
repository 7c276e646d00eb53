import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/alert.ts'

export const patterns: Translation<typeof english> = {
  'alert.asWritten': '{text}',
  'alert.pieces': '{pieces, plural, one{# cartucho} other{# cartuchos}}',
  'alert.openedCartridge': 'cartucho abierto {code}',
  'alert.expiresSoon': '{product}, lote {lot}: {what}; usar antes de que acabe el {day}',
  'alert.expiredOnShelf':
    '{product}, lote {lot}: {what}; sigue en el estante, caducado desde el final del {day}',
  'alert.openedPastOpenLife': '{product}, lote {lot}: {what}; pasado de su vida abierta desde el {day}',
  'alert.noDispenserFits':
    '{product}, lote {lot}: ninguna pistola de aquí admite un cartucho {form} ({pieces} en existencias)',
  'alert.lotOnHold': '{product}, lote {lot}: retenido, {pieces} en existencias. {reason}',
  'alert.withoutPlace': 'Sin lugar',
  'alert.countDiffers':
    '{place}, contado por {by}: {notFound} sin encontrar, {unexpected} vistos que el registro tiene en otro lugar',
  'alert.belowReorderPoint':
    '{product}: {there} en existencias y en camino; el punto de pedido es {reorderPoint}',
  'alert.reservedDies':
    '{order}, {joint}: el cartucho reservado no sirve. {reason}. Reservado en su lugar: {codes}',
  'alert.reservedDiesNothing':
    '{order}, {joint}: el cartucho reservado no sirve. {reason}. Aquí no hay otro que baste',
  'alert.sensorSilent': '{sensor}: sin lectura desde {at}',
  'alert.sensorNeverRead': '{sensor}: nunca ha enviado una lectura',
  'alert.storageExcursion':
    '{product}, lote {lot} en {places}: estuvo a {temperature}; su rango de almacenaje es de {low} a {high}',
  'alert.sensorDoubted':
    '{sensor}: {finding}. Hasta que alguien lo mire, tales lecturas solo pueden retrasar',
  'alert.sensorDoubtedAsked':
    '{sensor}: {finding} Hasta que alguien lo mire, tales lecturas solo pueden retrasar',
  'alert.aBay': 'Un puesto',
  'alert.sensorsDisagree':
    '{bay}: {one} marca {oneAt}, {other} {otherAt}. Cuenta el más frío hasta que alguien diga cuál es correcto',
  'alert.sensorsApart':
    '{bay}: en las últimas horas {warm} ha marcado {apart} más que {cold}, y sus exactitudes no lo explican. Cuenta el más frío hasta que alguien diga cuál es correcto',
  'alert.sensorApartAtJoint':
    '{bay}: {sensor} marcó {there}, el aire junto a la unión {atJoint} ({order}, {joint}). Mida el metal con otro termómetro; hasta que alguien diga cuál es correcto cuenta el más frío',
  'alert.notComputed': '{order}, {joint}: no se puede calcular: no está listo. {fault}',
  'alert.sheetSlower': '{order}, {joint}: {slower}. Mire cuándo se puede mover',
  'alert.plannedMoveBeforeReady':
    '{order} tiene reservado {place} {at}; {joint} está listo {ready} según la estimación prudente',
  'alert.plannedMoveNeverReady':
    '{order} tiene reservado {place} {at}; {joint} aún no tiene hora de listo según la estimación prudente',
  'alert.plannedMoveHeld': '{order} tiene reservado {place} {at}; {reason}',
  'alert.plannedCureTooShort':
    '{order}, {joint}: {next} está previsto {at}, pero con la previsión más reciente el curado no alcanza la resistencia de manipulación hasta {ready} según la estimación prudente',
  'alert.plannedCureNever':
    '{order}, {joint}: {next} está previsto {at}, pero con la previsión más reciente el curado no alcanza la resistencia de manipulación dentro de la previsión según la estimación prudente',
  'alert.theBay': 'El puesto',
  'alert.bayClash': '{bay}: {order} cura hasta {until}, y {next} está reservado desde {from}. {proposal}',
  'alert.bayClashNoEnd':
    '{bay}: {order} cura sin final a la vista, y {next} está reservado desde {from}. {proposal}',
  'alert.proposalMove': 'Propuesta: pasar {order} a {place}, que está libre entonces.',
  'alert.proposalStart': 'Propuesta: empezar {order} {at}.',
  'alert.proposalWarm': 'Propuesta: calentar el puesto, para que el curado llegue a su fin.',
  'alert.workFails':
    '{what}. Ha fallado varias veces y se vuelve a intentar cada pocos minutos; quien lleva el servicio encuentra la causa en su registro',
  'alert.failsPlan': 'No se trabaja en un plan que alguien pidió',
  'alert.failsWatch': 'Nadie vigila las alertas: lo que ha ocurrido desde entonces no se avisa',
  'alert.failsDelivery': 'Lo que debe avisarse fuera (webhooks, correo) no se envía',
  'alert.failsDigest': 'Los correos diarios no se escriben',
  'alert.failsRetention':
    'Lo que es más antiguo de lo que debe conservarse no se retira, y la base de datos crece',
  'alert.releasedNeverClamped': '{order}, {joint}: liberado sin haberse prensado nunca',
  'alert.releasedAt': '{order}, {joint}: liberado al {reached} de la resistencia de manipulación',
  'alert.releasedBeforeReadings': '{order}, {joint}: liberado antes de las lecturas que pide su clase',
  'alert.clampedAfterWorkTime': '{order}, {joint}: prensado después de terminar el tiempo de trabajo',
  'alert.appliedAgainstRefusal': '{order}, {joint}: aplicado aunque una regla lo negó',
  'alert.leftWithAdhesive': '{order}, {joint}: abandonado con adhesivo puesto',
  'alert.releasedTooEarly': '{order}, {joint}: liberado demasiado pronto. {learned}',
  'alert.gateOverridden':
    '{order}, {joint}: {did, select, started{empezado} clamped{prensado} other{liberado}} aunque {gates, plural, one{una regla lo negó} other{# reglas lo negaron}}',
  'alert.movedAfterWorkTime': '{order}, {joint}: movido después de terminar el tiempo de trabajo',
}

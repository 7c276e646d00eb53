import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/record.ts'

export const patterns: Translation<typeof english> = {
  'record.title': 'Registro de pegado, {order}, {joint}, intento {attempt}',
  'record.bondRecord': 'Registro de pegado',
  'record.subtitle': '{order}, {joint}, intento {attempt} · {shop}',
  'record.clock': 'Las horas son del reloj del taller ({zone}).',
  'record.jointAndProcedure': 'Unión y procedimiento',
  'record.vehicle': 'Vehículo',
  'record.plate': 'Matrícula',
  'record.vin': 'VIN',
  'record.correctedLater': 'Corregido después',
  'record.correctedAt': '{at}: {what}',
  'record.state': 'Estado',
  'record.stateIs':
    '{state, select, applied{aplicado} clamped{prensado} released{liberado} other{abandonado}}',
  'record.stateBecause':
    '{state, select, applied{aplicado} clamped{prensado} released{liberado} other{abandonado}}: {reason}',
  'record.safetyClass': 'Clase de seguridad',
  'record.procedure': 'Procedimiento',
  'record.procedureIs': '{document}, revisión {revision}, consultado el {on}',
  'record.noProcedure': 'ninguno registrado',
  'record.applied': 'Aplicado',
  'record.appliedBy': '{at} por {by}',
  'record.qualification': 'Cualificación',
  'record.qualificationIs': '{class}, {evidence}, del {from} al {until}',
  'record.noQualification': 'ninguna registrada que cubra la clase',
  'record.application': 'Aplicación',
  'record.beforeRecords': 'Hecho antes de que los registros formaran cadena: vea el pegado',
  'record.temperatureAndProgress': 'Temperatura y avance',
  'record.whatHappened': 'Lo que pasó, como se anotó entonces',
  'record.entry': '{at}  #{sequence}',
  'record.chain': 'Cadena de registros',
  'record.unbroken': 'intacta en este pegado',
  'record.broken': 'rota',
  'record.number': '#{sequence}',
  'record.latest': 'Última, #{sequence}',
  'record.latestHelp':
    'La última entrada del taller cuando se imprimió. npm run records:verify -- --head con este hash muestra si alguna entrada hasta ella se cambió, se cortó o se escribió de nuevo desde entonces.',
  'record.cautions': 'Precauciones',
  'record.cautionSheets':
    'La hoja de datos y la ficha de datos de seguridad mandan sobre cualquier cifra de aquí.',
  'record.cautionStructural':
    'Reparación estructural: solo según el procedimiento del fabricante del vehículo y por personas formadas.',
  'record.cautionHandling': 'Resistencia de manipulación no es resistencia para circular.',
  'record.cautionEstimates':
    'Las horas de listo son estimaciones a partir de temperaturas medidas y previstas; la prudente cuenta errores de sensores y huecos en contra de la unión.',
  'record.material': 'Material',
  'record.product': 'Producto',
  'record.productIs': '{product}, hoja de datos {revision} de {issued}',
  'record.productApproved': '{product}, hoja de datos {revision} de {issued}; aprobada por {by}, {at}',
  'record.cartridge': 'Cartucho {code}',
  'record.cartridgeIs': 'lote {lot}, {amount}; contaba hasta {until}. {reason}',
  'record.amount': 'Cantidad',
  'record.amountIs': '{amount}; la unión necesita {needed}',
  'record.amountShort':
    '{amount}; la unión necesita {needed}. Menos de lo necesario, confirmado por {by} porque: {reason}',
  'record.dispenser': 'Pistola',
  'record.conditions': 'Condiciones y preparación',
  'record.bay': 'Puesto',
  'record.notSaid': 'sin indicar',
  'record.panel': 'Panel',
  'record.panelIs': '{temperature} ± {accuracy}, {source, select, metalProbe{sonda} other{infrarrojo}}',
  'record.thermometer': 'Termómetro',
  'record.air': 'Aire',
  'record.airIs': '{temperature}, {humidity} %; punto de rocío {dewPoint}',
  'record.hygrometer': 'Higrómetro',
  'record.surfaces': 'Ambas caras preparadas',
  'record.dryFit': 'Prueba en seco hecha',
  'record.skimCoat': 'Capa fina',
  'record.stepDone': 'hecho, según la palabra de {by}, {at}',
  'record.stepNotDone': 'NO hecho, según la palabra de {by}, {at}',
  'record.preparation': 'Preparación, paso a paso',
  'record.preparationStep':
    '{step, select, bareMetal{metal desnudo y brillante} abraded{lijado} solventWiped{limpiado con disolvente} flashedOff{disolvente evaporado} dryFit{prueba en seco} skimCoat{capa fina} other{{step}}}',
  'record.notNamed': 'sin nombrar',
  'record.instrument':
    '{name}, serie {serial}, {state, select, in{calibración vigente} other{CALIBRACIÓN VENCIDA}}',
  'record.instrumentUntil':
    '{name}, serie {serial}, {state, select, in{calibración vigente} other{CALIBRACIÓN VENCIDA}}, hasta el {until}',
  'record.footer': 'Pegado {id} · impreso {at} · página {page} de {pages}',
  'record.nothingToDraw': 'No se conoce ninguna temperatura, así que no hay nada que dibujar.',
  'record.curveHelp':
    'Arriba: el panel, con lo que sensores y huecos dejan abierto. Abajo: parte de la resistencia de manipulación; el borde inferior es la estimación prudente.',
  'record.saidApplied': 'Aplicado por {by}',
  'record.saidReading': 'Panel a {temperature}, leído por {by}',
  'record.saidReadingWith': 'Panel a {temperature}, leído por {by} con {name} ({serial})',
  'record.saidReadingWithOut':
    'Panel a {temperature}, leído por {by} con {name} ({serial}, calibración vencida)',
  'record.saidTakenBack':
    'Lectura de panel de {temperature} {how, select, replaced{sustituida} other{retirada}} por {by}',
  'record.saidSlid': 'Deslizado a su sitio por {by}',
  'record.saidClamped': 'Cerrado y prensado por {by}',
  'record.saidReleasedAt':
    'Prensas fuera, por {by}, al {reached} de la resistencia de manipulación según la estimación prudente',
  'record.saidReleasedPast':
    'Prensas fuera, por {by}, pasada la resistencia de manipulación según la estimación prudente',
  'record.saidReleasedUnknown':
    'Prensas fuera, por {by}, con una parte desconocida de la resistencia de manipulación según la estimación prudente',
  'record.saidAbandoned': 'Abandonado por {by}',
  'record.saidIncident':
    '{incident, select, earlyRelease{Liberado antes de estar listo} clampedAfterWorkTime{Prensado después del tiempo de trabajo} movedAfterWorkTime{Movido después del tiempo de trabajo} gateOverridden{Se siguió aunque una regla lo negó} appliedAgainstRefusal{Aplicado aunque una regla lo negó} leftWithAdhesive{Salió con adhesivo puesto} other{Incidente}}, registrado por {by}',
  'record.saidInspection': 'Inspeccionado por {inspector} ({method}): {result}; registrado por {by}',
  'record.saidDisposition':
    '{disposition, select, redone{Por rehacer} other{Inspeccionado y aceptado}}, por {by}',
  'record.saidPhoto': 'Foto de {by}: {caption}. SHA-256 {sha256}',
  'record.saidPhotoAlone': 'Foto de {by}. SHA-256 {sha256}',
  'record.saidNote': 'Nota de {by}: {text}',
  'record.saidAttachmentWithdrawn': '{what, select, photo{Foto retirada} other{Nota retirada}} por {by}',
  'record.photos': 'Fotos',
  'record.photoNotDrawn': 'Esta foto está en la página del registro: aquí no se puede imprimir.',
  'record.photoExchanged': 'NO es la foto cuyo hash se anotó: se cambió en la base de datos.',
  'record.photosMore':
    '{count, plural, one{Hay # foto más} other{Hay # fotos más}} en la página del registro; sus hashes están arriba.',
  'record.saidVehicle': 'Vehículo corregido por {by}: {was} pasó a {is}',
  'record.withReason': '{what}: {reason}',
  'record.plateOf': 'matrícula {plate}',
  'record.vinOf': 'VIN {vin}',
  'record.amountAlone': '{amount}',
  'record.event':
    '{event, select, applied{aplicado} clamped{prensado} released{liberado} abandoned{abandonado} reading{lectura} incident{incidente} inspection{inspección} other{decisión}}',
  'record.thermometerOfBay': 'termómetro del puesto',
  'record.saidPlaced': 'Está en {bay}, según {by}',
}

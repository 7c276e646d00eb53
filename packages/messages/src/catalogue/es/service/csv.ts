import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/csv.ts'

export const patterns: Translation<typeof english> = {
  'csv.column':
    '{column, select, at{A las (UTC)} what{Qué} product{Producto} lot{Lote} cartridge{Cartucho} shop{Taller} shelf{Estante} place{Lugar} ml{mL} millilitres{mL} state{Estado} expired{Caducado} quarantined{En cuarentena} repairOrder{Orden de reparación} vehicle{Vehículo} joint{Unión} safetyClass{Clase de seguridad} attempt{Intento} appliedAt{Aplicado el} appliedBy{Aplicado por} by{Por} other{Motivo}}',
  'csv.yes': '{is, select, yes{sí} other{no}}',
  'csv.what':
    '{what, select, joint{unión} cartridge{cartucho} received{recibido} opened{abierto} used{usado} emptied{vaciado} discarded{desechado} corrected{corregido} sent{enviado} arrived{llegado} moved{movido} lost{perdido} other{{what}}}',
  'csv.state':
    '{state, select, sealed{sellado} opened{abierto} empty{vacío} discarded{desechado} inTransit{en camino} missing{desaparecido} applied{aplicado} clamped{con prensas} released{liberado} abandoned{abandonado} other{{state}}}',
}

import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/bake.ts'

export const patterns: Translation<typeof english> = {
  'bake.targetNotReached': '{panel} no llega nunca a {target}: el aire puede estar a solo {air}',
  'bake.targetNotReachedFix': 'Ponga el horno por encima del objetivo del metal en más de su tolerancia',
  'bake.neverCool': '{panel} no se enfría nunca a {touch} en aire de {air}',
  'bake.neverCoolFix': 'Déjelo enfriar en aire más frío, o espere menos',
  'bake.aboveServiceRange': 'El metal llegaría a {peak}; {product} en {joint} está admitido hasta {highest}',
  'bake.aboveServiceRangeFix': 'Hornee a menos temperatura',
  'bake.theMetal': 'El metal',
  'bake.aboveVehicleLimit': '{panel} llegaría a {peak}; el límite del propio vehículo es {limit}',
  'bake.aboveVehicleLimitFix': 'Hornee a menos temperatura y más tiempo, según permita la pintura',
  'bake.notPastHandling':
    '{joint} no alcanza la resistencia de manipulación hasta {ready} según la estimación prudente; se movería {move}',
  'bake.notPastHandlingForecast':
    '{joint} no alcanza la resistencia de manipulación dentro de la previsión según la estimación prudente; se movería {move}',
  'bake.notPastHandlingFix': 'Hornee más tarde',
  'bake.aboveHighestCure':
    '{joint} llegaría a {peak} antes de curar del todo; su hoja no cuenta calor por encima de {highest}',
}

import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/record-fault.ts'

export const patterns: Translation<typeof english> = {
  'record-fault.differs': '{where}: el registro dice {told}, la tabla contiene {held}',
  'record-fault.notInTable': '{where}: el registro habla de ello, y no está en la tabla',
  'record-fault.notInRecord': '{where}: está en la tabla, y ningún asiento habla de ello',
  'record-fault.afterPrinted': '{where}: {at} es posterior a su caducidad impresa, {printed}',
  'record-fault.changed': 'se cambió después de escribirse',
  'record-fault.doesNotFollow': 'no sigue al asiento anterior',
  'record-fault.missing': 'falta antes de él el asiento {sequence}',
  'record-fault.noRecord': 'no tiene registro: han desaparecido todos sus asientos',
  'record-fault.headLost':
    'la cabecera guardada {hash} no está en ninguna cadena íntegra: desde entonces se cortaron o se reescribieron asientos',
  'record-fault.notChained': 'La unión se hizo antes de que los registros se encadenaran',
  'record-fault.entry': 'El asiento {sequence} {fault}',
}

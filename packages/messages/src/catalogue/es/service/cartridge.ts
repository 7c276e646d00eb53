import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/cartridge.ts'

export const patterns: Translation<typeof english> = {
  'cartridge.isState':
    'El cartucho {code} está {state, select, sealed{sellado} opened{abierto} empty{vacío} discarded{desechado} inTransit{en camino a otro taller} other{desaparecido}}',
  'cartridge.expired': 'El cartucho {code} ha caducado. {reason}',
  'cartridge.onHold': 'El lote {lot} está retenido: {reason}',
  'cartridge.quarantined': 'El cartucho {code} está en cuarentena: {reason}',
  'cartridge.noDispenserFits': 'Ninguna pistola de este taller admite un cartucho {form}',
  'cartridge.tooLittle': 'El cartucho {code} contiene {remaining}, y hacen falta {needed}',
  'cartridge.anotherFix': 'Tome otro cartucho, y deseche este',
  'cartridge.anotherShop': 'El cartucho {code} está en otro taller',
  'cartridge.promised':
    'El cartucho {code} contiene {holds}: {promised} son para quien lo necesita antes, y hacen falta {needed}',
}

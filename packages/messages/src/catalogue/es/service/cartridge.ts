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
  'cartridge.printedExpiry': 'Caducidad impresa: el final del {day}',
  'cartridge.warmDays': 'El almacenaje cálido quitó {days} días a la caducidad impresa del {day}',
  'cartridge.warmHours': 'El almacenaje cálido quitó {hours} h a la caducidad impresa del {day}',
  'cartridge.openLife': 'Abierto el {day}, y cuenta {days, plural, one{# día} other{# días}} una vez abierto',
  'cartridge.labelLot': 'Lote {lot}',
  'cartridge.labelExpiry': 'Cad. {expiry}',
  'cartridge.labels': 'Etiquetas de cartucho',
}

import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/recall.ts'

export const patterns: Translation<typeof english> = {
  'recall.owner': 'Propietario',
  'recall.ownerIn': 'Propietario en {shop}',
  'recall.partsManager': 'Responsable de materiales',
  'recall.partsManagerIn': 'Responsable de materiales en {shop}',
  'recall.made': '{joints, plural, one{Hizo 1 unión} other{Hizo # uniones}} con él',
}

import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/lib.ts'

export const patterns: Translation<typeof english> = {
  'lib.ago': 'hace {words}',
}

import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/problem.ts'

export const patterns: Translation<typeof english> = {
  'problem.ofField': '{field}: {what}',
}

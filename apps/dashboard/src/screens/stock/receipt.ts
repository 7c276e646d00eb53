import type { ROUTES } from '@clampclock/contracts'
import type { ResultOf } from '../../api/types.ts'

export type Receipt = ResultOf<typeof ROUTES.receiveLot>

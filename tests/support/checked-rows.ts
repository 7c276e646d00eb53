import { checkEveryRow } from '../../apps/api/src/foundation/database/read.ts'

/** Whatever a test asks of the service: each row that was read for it is held against its schema. */
checkEveryRow()

import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/api.ts'

export const patterns: Translation<typeof english> = {
  'api.theServiceAnsweredWithStatus': 'The service answered with status {status}',
  'api.owner': 'Owner',
  'api.partsManager': 'Parts manager',
  'api.scheduler': 'Scheduler',
  'api.technician': 'Technician',
  'api.viewer': 'Viewer',
  'api.itCouldNotBeSent': 'It could not be sent',
}

export const patterns = {
  'api.theServiceAnsweredWithStatus': 'The service answered with status {status}',
  'api.owner': 'Owner',
  'api.partsManager': 'Parts manager',
  'api.scheduler': 'Scheduler',
  'api.technician': 'Technician',
  'api.viewer': 'Viewer',
  'api.itCouldNotBeSent': 'It could not be sent',
} as const

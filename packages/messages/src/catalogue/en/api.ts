export const patterns = {
  'api.theServiceAnsweredWithStatus': 'The service answered with status {status}',
  'api.owner': 'Owner',
  'api.partsManager': 'Parts manager',
  'api.scheduler': 'Scheduler',
  'api.technician': 'Technician',
  'api.viewer': 'Viewer',
  'api.itCouldNotBeSent': 'It could not be sent',
  'api.theServiceCannotBeReached': 'The service cannot be reached. Nothing you typed is lost; try again.',
} as const

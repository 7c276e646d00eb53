export const patterns = {
  'api.theServiceAnsweredWithStatus': 'The service answered with status {status}',
  'api.owner': 'Owner',
  'api.partsManager': 'Parts manager',
  'api.scheduler': 'Scheduler',
  'api.technician': 'Technician',
  'api.viewer': 'Viewer',
  'api.itCouldNotBeSent': 'It could not be sent',
  'api.theServiceCannotBeReached': 'The service cannot be reached. Nothing you typed is lost; try again.',
  'api.notKept': 'This device could not keep it, and nothing was sent. Press again.',
  'api.notSentAfterRefused': 'Not sent: what was pressed before it was refused.',
} as const

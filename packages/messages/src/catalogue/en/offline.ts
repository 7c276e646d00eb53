export const patterns = {
  'offline.offline': 'Offline',
  'offline.theServiceDoesNotAnswer':
    'The service does not answer: this device has no network, or the service is not running.',
  'offline.nothingIsToldOfAJoint':
    'Nothing can be told of a joint until it answers. Leave the clamps on and the vehicle where it is.',
  'offline.goesOnByItself':
    'This page asks again every few seconds and goes on by itself. A form of a bond that was begun on this device is kept.',
  'offline.noAnswerFromTheServer': 'No answer from the server',
  'offline.askAgain': 'Ask again',
} as const

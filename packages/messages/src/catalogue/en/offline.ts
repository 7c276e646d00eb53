export const patterns = {
  'offline.offline': 'Offline',
  'offline.theServiceDoesNotAnswer':
    'The service does not answer: this device has no network, or the service is not running.',
  'offline.nothingIsToldOfAJoint':
    'Nothing can be told of a joint until it answers. Leave the clamps on and the vehicle where it is.',
  'offline.goesOnByItself':
    'This page asks again every few seconds and goes on by itself. What was pressed at a bond on this device is kept and goes then, and so is a form that was begun.',
  'offline.noAnswerFromTheServer': 'No answer from the server',
  'offline.askAgain': 'Ask again',
} as const

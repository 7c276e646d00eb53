export const patterns = {
  'calls.timeHasCome': 'The time of a joint has come',
  'calls.askBeforeTheClampsComeOff': '{joint}, {vehicle}: its time has come. Ask before the clamps come off.',
  'calls.workTimeIsOver': '{joint}: the work time is over.',
  'calls.workTimeLeft':
    '{joint}: {minutes, plural, one{# minute} other{# minutes}} of work time left. Close and clamp the joint.',
  'calls.mayIMoveIt': 'May I move it?',
  'calls.later': 'Later',
} as const

export const patterns = {
  'move.notClamped': '{joint}: the joint is not clamped yet',
  'move.notClampedFix': 'Close and clamp it, then let it cure',
  'move.cannotCompute': '{joint}: cannot be computed: not ready',
  'move.cannotComputeFix': 'See the alert: a reading, a thermometer or the data sheet is at fault',
  'move.fixApart':
    "Measure the metal with another thermometer: the bay's thermometer and the one at the joint disagree",
  'move.fixUnproven':
    'Measure the metal with the same thermometer and with another within a quarter of an hour: nothing bears it out yet',
  'move.fixUnprovenReady':
    'Measure the metal with the same thermometer and with another within a quarter of an hour: nothing bears it out yet; it may be ready {ready} then',
  'move.fixSuspect': 'Measure the metal: readings are in doubt, and may only delay',
  'move.fixAir':
    "Measure the metal again: the air at the joint is what the bay's thermometer shows, which bears nothing out",
  'move.fixAirReady':
    "Measure the metal again: the air at the joint is what the bay's thermometer shows, which bears nothing out; it may be ready {ready} then",
  'move.notReady': '{joint}: at {reached} of handling strength on the careful estimate; ready {ready}',
  'move.notReadyTooCold':
    '{joint}: at {reached} of handling strength on the careful estimate; at this temperature it does not cure',
  'move.notReadyBeyondForecast':
    '{joint}: at {reached} of handling strength on the careful estimate; not within the next days',
  'move.notReadyNoTemperature':
    '{joint}: at {reached} of handling strength on the careful estimate; nothing tells how warm it stays',
  'move.onOtherOrder': 'On {order} of the same vehicle: {says}',
  'move.warmFix': 'Warm the bay or the panel',
  'move.measureLaterFix': 'Measure the panel, {apart} or more after the reading before',
  'move.measureFix': 'Measure the panel',
  'move.tooFewReadings':
    '{joint}: {good} of {needed} panel readings by an instrument in calibration, which class S1 asks for',
} as const

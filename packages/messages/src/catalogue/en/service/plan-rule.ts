export const patterns = {
  'plan-rule.it': 'It',
  'plan-rule.then': 'then',
  'plan-rule.byHand': 'a booking made by hand',
  'plan-rule.bondOn': 'the bond on {joint}',
  'plan-rule.operation': '{operation} ({order})',
  'plan-rule.vehicle': 'the vehicle ({order})',
  'plan-rule.vehicleOf': 'The vehicle of {order}',
  'plan-rule.aVehicle': 'A vehicle',
  'plan-rule.capacity': '{place} is taken {when}: {names}',
  'plan-rule.unavailable': '{place} is booked or out of use {when}, and {first} would stand there',
  'plan-rule.calendar': '{first} would start in a break, or lie across one: {when}',
  'plan-rule.lag': '{second} would start {when}, before {first} is through',
  'plan-rule.lagOfCure':
    '{second} would come {when}, before {first} has reached handling strength on the careful estimate',
  'plan-rule.lagOfForecast':
    '{second} would come {when}, right after {first}: {spare} are left for a forecast that changes',
  'plan-rule.maxLag': '{second} would start {when}: it follows on {first} without a wait',
  'plan-rule.window': '{first} would start too soon, or end beyond what is planned: {when}',
  'plan-rule.unplanned': '{first} finds no place behind it in the next four weeks',
  'plan-rule.mode': '{first} needs somebody, or a bay, that can do it',
  'plan-rule.fixed': '{first} has begun otherwise than planned',
  'plan-rule.form': 'Something in the plan is finished, or not to be done any more',
  'plan-rule.hold': '{vehicle} would not stand where it is planned to {when}',
  'plan-rule.duration': '{first} takes another time than planned: it would not be through as planned, {when}',
  'plan-rule.batch': '{first} and {second} would be in {place} together {when}, and are no common load',
  'plan-rule.setup':
    '{second} would start {when}, too soon after {first}: {place} has to be made ready in between',
} as const

export const patterns = {
  'bake.targetNotReached': '{panel} never reaches {target}: the air may be as cold as {air}',
  'bake.targetNotReachedFix': 'Set the oven warmer than the metal target by more than its tolerance',
  'bake.neverCool': '{panel} never cools to {touch} in air of {air}',
  'bake.neverCoolFix': 'Let it cool in colder air, or wait less long for it',
  'bake.aboveServiceRange': 'The metal would reach {peak}; {product} on {joint} is rated to {highest}',
  'bake.aboveServiceRangeFix': 'Bake cooler',
  'bake.theMetal': 'The metal',
  'bake.aboveVehicleLimit': "{panel} would reach {peak}; the vehicle's own limit is {limit}",
  'bake.aboveVehicleLimitFix': 'Bake cooler and longer, as the paint allows',
  'bake.notPastHandling':
    '{joint} reaches handling strength only {ready} on the careful estimate; it would be moved {move}',
  'bake.notPastHandlingForecast':
    '{joint} reaches handling strength not within the forecast on the careful estimate; it would be moved {move}',
  'bake.notPastHandlingFix': 'Bake later',
  'bake.aboveHighestCure':
    '{joint} would get to {peak} before it is fully cured; its sheet credits no heat above {highest}',
} as const

export const patterns = {
  'note.slowerSheet':
    'Revision {slower} of the data sheet of {product} is slower than revision {revision}, by which it was made: the slower counts',
  'note.gapBridged':
    'No reading from {from} to {to}: the careful estimate took it as far down as this place can have fallen, {margin} below the colder end.',
  'note.staleTemperature':
    'The last reading is of {from}: the careful estimate has let it fall by {margin} since. A new panel reading would sharpen it.',
  'note.toldLate':
    'Entered long after it is said to have been applied ({applied}): the careful estimate counts from {countsFrom}.',
  'note.noTemperature': 'No temperature has been read: nothing can be promised. Measure the panel.',
  'note.noForecast': 'There is no forecast for this bay: only what has been reached already is given.',
  'note.forecastEnds': 'The forecast ends at {to}, before {milestones}.',
  'note.milestone':
    '{milestone, select, workTime{the end of the work time} handlingStrength{handling strength} other{full cure}}',
  'note.readingsAfterNow': '{count} readings are stamped later than now and were left out.',
  'note.suspectReadings':
    '{count, plural, one{# reading is} other{# readings are}} in doubt: they may delay, but never hasten. Measure the panel again.',
  'note.panelLagUnknown':
    'How fast this panel follows the air of the bay is not known: the careful estimate takes the worst. Measure the metal again.',
  'note.metalNotFollowingAir':
    'The metal read {temperature} at {at}, which the air of the bay does not explain: the careful estimate took the coldest since the reading before.',
  'note.airAtJointApart':
    "The air at the joint read {joint} at {at}, the bay's thermometer {bay}: the careful estimate takes the {warmer, select, bay{bay''s} other{one at the joint}} to read {apart} too warm. Measure the metal with another thermometer, and have the two compared.",
  'note.metalUnproven':
    'Nothing bears out the thermometer that read the metal: the careful estimate takes the metal to have come in as cold as it may have. Measure the metal with it and with another thermometer within a quarter of an hour. Next time read the air at the joint with the one that reads the metal.',
  'note.metalUnprovenReady':
    'Nothing bears out the thermometer that read the metal: the careful estimate takes the metal to have come in as cold as it may have. Measure the metal with it and with another thermometer within a quarter of an hour: if that bears it out, it may be ready {ready}. Next time read the air at the joint with the one that reads the metal.',
  'note.airUnproven':
    "The air at the joint is what the bay's thermometer shows, so neither bears the other out: the careful estimate lets the air warm the metal no further than it was measured to come, {by} below what it reads. Measure the metal again once it has warmed.",
  'note.airUnprovenReady':
    "The air at the joint is what the bay's thermometer shows, so neither bears the other out: the careful estimate lets the air warm the metal no further than it was measured to come, {by} below what it reads. Measure the metal again once it has warmed: if that bears it out, it may be ready {ready}.",
  'note.panelStartAssumed': 'The panel is taken to have started at {temperature}, the air of the bay.',
  'note.stalled':
    'Below {lowest} from {from} to {to} on the careful estimate: it does not cure there at all.',
  'note.capped': 'Above {highest} from {from} to {to}: no credit for more heat.',
  'note.extrapolated':
    'Temperatures from {coldest} to {warmest} counted; the data sheet publishes {low} to {high}.',
  'note.estimatedFromDoublingRule':
    'The data sheet gives one temperature only ({published}): the rest follows the rule that cure doubles in speed for each {step}.',
  'note.outsideServiceRange': '{temperature} at {at} is outside the rated range of {low} to {high}.',
} as const

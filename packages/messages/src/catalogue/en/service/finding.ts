export const patterns = {
  'finding.outOfRange': '{value} is outside {low} to {high}',
  'finding.fahrenheit': '{value} reads like {typed} entered as °C: was {meant} meant?',
  'finding.celsius': '{value} reads like {typed} entered as °F: was {meant} meant?',
  'finding.tooFast':
    '{value} is {apart} {side, select, above{above} other{below}} the last reading ({previous}, {before} before): it gets to {reach} in that time at the most',
  'finding.spike': '{value} stands alone: the readings around it are at {between}',
  'finding.stuck': '{value} for {hours} h without a change, while other thermometers moved',
  'finding.standsStill':
    '{value}, and so {times} times running in {within}: does the thermometer stand still? Read something else with it, and the metal again',
  'finding.unchanged':
    '{value} is what it was {before} before, though the air was at {air}: was it measured again?',
  'finding.jumped':
    '{value} is {apart} above the last reading that is believed ({previous}): it never rose by more than {most} at once. Compare it with another thermometer',
  'finding.apart':
    "{value} where the bay's thermometer says {other}: one of them is wrong. Read the air at the joint again",
  'finding.aboveAir': '{value} is above the warmest air that the metal has been in ({air})',
  'finding.warmsInColderAir':
    '{value} is above the last reading ({previous}), though the air was colder ({air})',
  'finding.late': '{value} was entered {after} after it was read: it can make nothing ready sooner',
  'finding.outOfCalibration': '{value} was read by an instrument out of calibration',
  'finding.sentTwice': '{value} was entered {seconds} s apart from the same value: was it measured again?',
  'finding.twoValues': '{value} and {other} came for the same instant: the colder one is kept',
  'finding.inDoubt': 'In doubt: it may only delay',
  'finding.withdrawn': 'Withdrawn: it does not count',
  'finding.replaced': 'Replaced: it does not count',
} as const

export const patterns = {
  'sheet.bothUnits': '{c} ({f})',
  'sheet.figure':
    '{figure, select, temperatureC{The temperature} workTimeMinutes{The work time} handlingTimeMinutes{The handling time} fullCureMinutes{The full cure} lowestCureC{The lowest temperature for cure} highestCureC{The highest temperature for cure} applicationRangeC{The application range} serviceRangeC{The service range} points{The table of times} other{{figure}}}',
  'sheet.figureInLine':
    '{figure, select, temperatureC{The temperature} workTimeMinutes{The work time} handlingTimeMinutes{The handling time} other{The full cure}} in line {line}',
  'sheet.outside': '{figure} is {value}, but must be {low} to {high}: check the data sheet',
  'sheet.rangeBackwards': '{figure} runs from {low} to {high}: swap its ends',
  'sheet.lowestAboveHighest':
    'The lowest temperature for cure ({low}) must be below the highest temperature for cure ({high})',
  'sheet.noPoints':
    'The table of times is empty: give at least one temperature with its work, handling and full-cure time',
  'sheet.notAboveZero': '{figure} is {value}, but must be a number of minutes above zero',
  'sheet.workLonger': 'Line {line}: work time ({work}) cannot be longer than handling time ({handling})',
  'sheet.handlingLonger': 'Line {line}: handling time ({handling}) cannot be longer than full cure ({full})',
  'sheet.temperatureTwice': 'The table of times has {value} twice: keep one of them',
  'sheet.doesNotFall':
    '{figure} does not fall as it gets warmer: {before} at {cold}, {after} at {warm}; check both',
  'sheet.belowLowest':
    '{figure} is {value}, below the lowest temperature for cure ({limit}), where nothing cures',
  'sheet.aboveHighest':
    '{figure} is {value}, above the highest temperature for cure ({limit}): raise that limit or drop the point',
  'sheet.fahrenheit': '{value} reads like °F entered as °C: was {meant} meant?',
  'sheet.celsius': '{value} reads like °C entered as °F: was {meant} meant?',
  'sheet.milestone':
    '{milestone, select, workTime{Work time} handlingStrength{Handling time} other{Full cure}}',
  'sheet.muchFaster':
    '{what} of {time} at {temperature} is more than twice as fast as before: the last revision says {before}',
  'sheet.muchFasterThanNever':
    '{what} of {time} at {temperature} is more than twice as fast as before: by the last revision nothing cures there',
  'sheet.handlingInMinutes': 'Handling strength after {time} at {temperature}: are these hours, not minutes?',
  'sheet.span': '{low} to {high}',
  'sheet.applicationOutsideShop':
    'No shop meets an application range of {range}: metal in a shop is at {shop}',
  'sheet.noCureInRoom': 'Below {lowest} nothing cures by this sheet, so nothing does in a room at {room}',
  'sheet.cureEndsHot': 'The highest temperature for cure is {highest}; sheets give {usual}',
  'sheet.serviceBelowSun': 'The joint is rated to {highest} only: a vehicle in the sun reaches {sun}',
} as const

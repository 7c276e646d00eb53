export const patterns = {
  'lib.ago': '{words} ago',
  'lib.minutes': '{n, plural, one{# minute} other{# minutes}}',
  'lib.hours': '{n, plural, one{# hour} other{# hours}}',
  'lib.days': '{n, plural, one{# day} other{# days}}',
  'lib.ahead': 'in {words}',
  'lib.range': '{from} to {until}',
  'lib.by': '{what} by {who}',
  'lib.clampSets': '{clampSets, plural, one{# clamp set} other{# clamp sets}}',
} as const

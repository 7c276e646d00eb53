export const patterns = {
  'cartridge.isState':
    'The cartridge {code} is {state, select, sealed{sealed} opened{opened} empty{empty} discarded{discarded} inTransit{on its way to another shop} other{missing}}',
  'cartridge.expired': 'The cartridge {code} has expired. {reason}',
  'cartridge.onHold': 'The lot {lot} is on hold: {reason}',
  'cartridge.quarantined': 'The cartridge {code} is quarantined: {reason}',
  'cartridge.noDispenserFits': 'No dispenser of this shop takes a {form} cartridge',
  'cartridge.tooLittle': 'The cartridge {code} holds {remaining}, and {needed} are needed',
  'cartridge.anotherFix': 'Take another cartridge, and discard this one',
  'cartridge.anotherShop': 'The cartridge {code} is in another shop',
  'cartridge.promised':
    'The cartridge {code} holds {holds}: {promised} go to who needs it before, and {needed} are needed',
  'cartridge.printedExpiry': 'Printed expiry: the end of {day}',
  'cartridge.warmDays': 'Warm storage took {days} days off the printed expiry of {day}',
  'cartridge.warmHours': 'Warm storage took {hours} h off the printed expiry of {day}',
  'cartridge.openLife':
    'Opened on {day}, and counts for {days, plural, one{# day} other{# days}} once opened',
  'cartridge.labelLot': 'Lot {lot}',
  'cartridge.labelExpiry': 'Exp {expiry}',
  'cartridge.labels': 'Cartridge labels',
} as const

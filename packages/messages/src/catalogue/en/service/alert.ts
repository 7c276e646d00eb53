export const patterns = {
  'alert.asWritten': '{text}',
  'alert.pieces': '{pieces, plural, one{# cartridge} other{# cartridges}}',
  'alert.openedCartridge': 'opened cartridge {code}',
  'alert.expiresSoon': '{product}, lot {lot}: {what} to be used by the end of {day}',
  'alert.expiredOnShelf': '{product}, lot {lot}: {what} still on the shelf, expired after {day}',
  'alert.openedPastOpenLife': '{product}, lot {lot}: {what} past its open life since {day}',
  'alert.noDispenserFits':
    '{product}, lot {lot}: no dispenser here takes a {form} cartridge ({pieces} on hand)',
  'alert.lotOnHold': '{product}, lot {lot}: on hold, {pieces} on hand. {reason}',
  'alert.withoutPlace': 'Without a place',
  'alert.countDiffers':
    '{place}, counted by {by}: {notFound} not found, {unexpected} seen that the record has elsewhere',
  'alert.belowReorderPoint': '{product}: {there} on hand and on the way, the reorder point is {reorderPoint}',
  'alert.reservedDies':
    '{order}, {joint}: the reserved cartridge will not do. {reason}. Reserved instead: {codes}',
  'alert.reservedDiesNothing':
    '{order}, {joint}: the reserved cartridge will not do. {reason}. Nothing else here suffices',
  'alert.sensorSilent': '{sensor}: no reading since {at}',
  'alert.sensorNeverRead': '{sensor}: has never sent a reading',
  'alert.storageExcursion':
    '{product}, lot {lot} in {places}: was at {temperature}; its storage range is {low} to {high}',
  'alert.sensorDoubted': '{sensor}: {finding}. Until somebody looks, such readings may only delay',
  'alert.sensorDoubtedAsked': '{sensor}: {finding} Until somebody looks, such readings may only delay',
  'alert.aBay': 'A bay',
  'alert.sensorsDisagree':
    '{bay}: {one} reads {oneAt}, {other} {otherAt}. The colder one counts until somebody says which is right',
  'alert.sensorsApart':
    '{bay}: over the last hours {warm} has read {apart} above {cold}, which their accuracies do not explain. The colder one counts until somebody says which is right',
  'alert.sensorApartAtJoint':
    '{bay}: {sensor} read {there}, the air at the joint {atJoint} ({order}, {joint}). Measure the metal with another thermometer; until somebody says which is right the colder one counts',
  'alert.notComputed': '{order}, {joint}: cannot be computed: not ready. {fault}',
  'alert.sheetSlower': '{order}, {joint}: {slower}. Look at when it may be moved',
  'alert.plannedMoveBeforeReady':
    '{order} is booked into {place} {at}; {joint} is ready {ready} on the careful estimate',
  'alert.plannedMoveNeverReady':
    '{order} is booked into {place} {at}; {joint} has no ready time yet on the careful estimate',
  'alert.plannedMoveHeld': '{order} is booked into {place} {at}; {reason}',
  'alert.plannedCureTooShort':
    '{order}, {joint}: {next} is planned {at}, but by the newest forecast the cure reaches handling strength only {ready} on the careful estimate',
  'alert.plannedCureNever':
    '{order}, {joint}: {next} is planned {at}, but by the newest forecast the cure reaches handling strength not within the forecast on the careful estimate',
  'alert.theBay': 'The bay',
  'alert.bayClash': '{bay}: {order} cures until {until}, and {next} is booked from {from}. {proposal}',
  'alert.bayClashNoEnd':
    '{bay}: {order} cures with no end in sight, and {next} is booked from {from}. {proposal}',
  'alert.proposalMove': 'Proposal: move {order} to {place}, which is free then.',
  'alert.proposalStart': 'Proposal: start {order} at {at}.',
  'alert.proposalWarm': 'Proposal: warm the bay, so that the cure comes to an end.',
  'alert.workFails':
    '{what}. It has failed several times and is tried again every few minutes; whoever runs the service finds the cause in its log',
  'alert.failsPlan': 'A plan that somebody asked for is not worked on',
  'alert.failsWatch': 'Nobody looks after the alerts: what has come true since is not told',
  'alert.failsDelivery': 'What is to be told outside (webhooks, mail) is not sent',
  'alert.failsDigest': 'The daily mails are not written',
  'alert.failsRetention': 'What is older than it has to be kept is not taken out, and the database grows',
  'alert.releasedNeverClamped': '{order}, {joint}: released before it was ever clamped',
  'alert.releasedAt': '{order}, {joint}: released at {reached} of handling strength',
  'alert.releasedBeforeReadings': '{order}, {joint}: released before the readings that its class asks for',
  'alert.clampedAfterWorkTime': '{order}, {joint}: clamped after the work time had run out',
  'alert.appliedAgainstRefusal': '{order}, {joint}: applied although a gate refused',
  'alert.leftWithAdhesive': '{order}, {joint}: given up with adhesive on it',
  'alert.releasedTooEarly': '{order}, {joint}: released too early. {learned}',
  'alert.gateOverridden':
    '{order}, {joint}: {did, select, started{started} clamped{clamped} other{released}} although {gates, plural, one{a gate} other{# gates}} refused',
  'alert.movedAfterWorkTime': '{order}, {joint}: moved after the work time had run out',
} as const

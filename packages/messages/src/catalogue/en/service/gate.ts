export const patterns = {
  'gate.anotherShop': 'The cartridge {code} is in another shop',
  'gate.takeOfThisShopFix': 'Take one of this shop',
  'gate.twice': 'names a cartridge twice',
  'gate.twiceFix': 'Give its whole amount once',
  'gate.beforeReceived': 'is before the cartridge {code} was received ({at})',
  'gate.beforeOpened': 'is before the cartridge {code} was opened ({at})',
  'gate.whichInstantFix':
    'Give the instant at which the adhesive left the nozzle, or name the cartridge that was used',
  'gate.noSheet': 'No data sheet of {product} is on file: no time can be computed',
  'gate.noSheetFix': 'Record the data sheet first',
  'gate.sheetNotValidYet':
    'The data sheet of {product}, revision {revision}, counts from {from} on, and no earlier one is approved',
  'gate.sheetNotValidYetFix': 'Record the revision that holds until then, and have it approved',
  'gate.sheetNotApproved':
    'The data sheet of {product}, revision {revision}, is not approved yet: it does not count',
  'gate.sheetNotApprovedFix':
    'Have somebody else compare it with the print and approve it, on the page of the product',
  'gate.noBay': 'names no bay of this shop',
  'gate.noProcedure': "No procedure of the vehicle's maker is on record for {joint}",
  'gate.noProcedureFix': 'Look it up, and record document, revision and date',
  'gate.otherProduct': 'The cartridge holds {held}; the joint is planned with {planned}',
  'gate.otherProductFix': 'Take a cartridge of {planned}',
  'gate.mixedProducts':
    'The cartridges are of different products: they do not cure alike, and may not bond to each other',
  'gate.mixedProductsFix': 'Take cartridges of one product',
  'gate.furtherFix': 'Name a further cartridge for the rest',
  'gate.anotherFix': 'Take another cartridge',
  'gate.noDispenser': 'names no dispenser of this shop',
  'gate.dispenserDoesNotFit': '{dispenser} takes {forms}; the cartridge is {form}',
  'gate.dispenserDoesNotFitFix': 'Take a dispenser that fits: another one may not hold the mix ratio',
  'gate.surfaces': 'The surfaces are not prepared as the data sheet says',
  'gate.dryFit': 'The dry fit is not done, or the clamps are not set out',
  'gate.skimCoat': 'Bared metal has no skim coat: it would corrode where nobody can reach',
  'gate.preparedFix': 'Do it first: the clock starts with the adhesive',
  'gate.panelTooCold': 'The panel is at {panel} (± {accuracy}), below the {limit} of the data sheet',
  'gate.panelTooColdFix': 'Warm the panel',
  'gate.panelTooHot': 'The panel is at {panel} (± {accuracy}), above the {limit} of the data sheet',
  'gate.panelTooHotFix': 'Let the panel cool',
  'gate.nearDewPoint':
    'The panel is at {panel} (± {accuracy}): {margin} above the dew point of {dewPoint}, and {required} are needed',
  'gate.belowDewPoint':
    'The panel is at {panel} (± {accuracy}): {margin} below the dew point of {dewPoint}; {required} above it are needed',
  'gate.nearDewPointFix': 'Warm the panel, or dry the air',
  'gate.qualificationEnded':
    "{person}'s qualification for {held} was ended on {on}; the joint is of class {asked}",
  'gate.qualificationExpired':
    "{person}'s qualification for {held} is valid from {from} to {until}; the joint is of class {asked}",
  'gate.notQualified': '{person} has no qualification on record for a joint of class {asked}',
  'gate.qualifiedFix': 'Let somebody do it who is qualified',
  'gate.noInstrument':
    "Which thermometer took the panel's temperature is not said; a joint of class {asked} asks for one in calibration",
  'gate.noInstrumentFix': "Name one of the shop's register",
  'gate.calibrationOver': '{instrument} ({serial}) was calibrated until {until}',
  'gate.neverCalibrated': '{instrument} ({serial}) was never calibrated',
  'gate.calibrationFix': 'Take an instrument that is in calibration',
  'gate.bayTaken': '{order}, {vehicle}, stands in {bay}, booked until {until}',
  'gate.bayCuring': '{order}, {vehicle}, stands in {bay}, curing',
  'gate.bayTakenFix': 'Choose the bay that {order} stands in, or end the booking of {taken} first',
  'gate.standsElsewhere': '{joint} on {order} cures in {bay}: the vehicle stands there',
  'gate.standsElsewhereFix': 'Choose {bay}',
  'gate.needsPermission': 'Going on although a gate refuses needs the permission takeResponsibility',
  'gate.roleLacks': 'Your role does not carry takeResponsibility in this shop',
  'gate.askOwnerFix': 'Ask an owner',
  'gate.mendOrConfirmFix':
    'Mend it, or confirm it: it then counts only where it delays, until a second reading bears it out',
  'gate.movedLate': '{joint}: the work time may be over; moved now, what has begun to cure is torn',
  'gate.movedLateFix':
    'Leave it as it is. If it was moved already, say what happened: somebody entitled then has to look at the joint',
  'gate.movedReleased': '{joint}: the clamps are off; moved now, what has cured is torn',
  'gate.movedUnknown': '{joint}: the work time cannot be computed, so nobody can say that it still runs',
} as const

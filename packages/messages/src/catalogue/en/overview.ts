export const patterns = {
  'overview.inspectAndAcceptOrRedo': 'Inspect and accept, or redo',
  'overview.moveTheBookingOrWarmTheBay': 'Move the booking, or warm the bay',
  'overview.somebodyMustWaitOrGoElsewhere': 'Somebody must wait or go elsewhere',
  'overview.takeOffTheShelfAndDiscard': 'Take off the shelf and discard',
  'overview.discardItNoLongerCounts': 'Discard; it no longer counts',
  'overview.inspectAndAcceptOrMakeTheJointAgain': 'Inspect and accept, or make the joint again',
  'overview.useFirstOrSendWhereItIsNeeded': 'Use first, or send where it is needed',
  'overview.notToBeUsedUntilTheHoldEnds': 'Not to be used until the hold ends',
  'overview.countsAsNoStockHere': 'Counts as no stock here',
  'overview.nothingNeedsAPersonNow': 'Nothing needs a person now.',
  'overview.whatNeedsAttention': 'What needs attention',
  'overview.none': 'None',
  'overview.byShop': 'By shop',
  'overview.shop': 'Shop',
  'overview.there': '{now} there',
  'overview.baysTaken': 'Bays taken',
  'overview.of': '{occupied} of {total}',
  'overview.curing': 'Curing',
  'overview.mayBeMoved': 'May be moved',
  'overview.sealed': 'Sealed',
  'overview.opened': 'Opened',
  'overview.openAlerts': 'Open alerts',
  'overview.howEachShopStands': 'How each shop stands',
  'overview.overview': 'Overview',
  'overview.allShops': 'All shops',
  'overview.needsAttentionMostUrgentFirst': 'Needs attention, most urgent first',
  'overview.theOverview': 'the overview',
  'overview.shops': 'Shops',
  'overview.inTheShop': 'In the shop',
  'overview.mostUrgentAlerts': 'Most urgent alerts',
  'overview.allOpenAlerts': 'All open alerts',
  'overview.finding.movedEarly':
    '{n, plural, one{joint released before handling strength} other{joints released before handling strength}}',
  'overview.finding.plannedTooEarly':
    '{n, plural, one{job planned to move before it is ready} other{jobs planned to move before they are ready}}',
  'overview.finding.bayClash':
    '{n, plural, one{cure runs on into the next booking} other{cures run on into the next booking}}',
  'overview.finding.expired': '{n, plural, one{expired cartridge on hand} other{expired cartridges on hand}}',
  'overview.finding.openedPastOpenLife':
    '{n, plural, one{opened cartridge past its open life} other{opened cartridges past their open life}}',
  'overview.finding.openIncidents':
    '{n, plural, one{joint waits for a decision} other{joints wait for a decision}}',
  'overview.finding.expiresSoon':
    '{n, plural, one{cartridge about to expire} other{cartridges about to expire}}',
  'overview.finding.onHold': '{n, plural, one{cartridge on hold} other{cartridges on hold}}',
  'overview.finding.noDispenserFits':
    '{n, plural, one{cartridge that no dispenser takes} other{cartridges that no dispenser takes}}',
} as const

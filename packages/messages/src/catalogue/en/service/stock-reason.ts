/** What the service itself gives as a reason, kept with what happened to stock. */
export const patterns = {
  'stock-reason.usedUp': 'Used up',
  'stock-reason.nozzleChanged': 'Nozzle changed',
  'stock-reason.openedForJob': 'Opened for a job',
  'stock-reason.openedFor': 'Opened for {order}, {joint}',
  'stock-reason.delivery': 'Delivery',
  'stock-reason.arrived': 'Arrived',
  'stock-reason.otherShelf': 'Moved to another shelf',
  'stock-reason.sentTo': 'To {shop}: {reason}',
  'stock-reason.lotScrapped': 'Lot scrapped: {reason}',
  'stock-reason.scrapped': 'Scrapped: {reason}',
  'stock-reason.ofLot': 'Its lot: {reason}',
  'stock-reason.storageWatch': 'Storage watch',
  'stock-reason.thePlan': 'The plan',
  'stock-reason.outOfRange':
    'Out of its storage range in {shop}, {place}: was at {was}, and may lie at {low} to {high}',
} as const

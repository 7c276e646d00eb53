/** What the service itself gives as a reason, kept with plans and bookings. */
export const patterns = {
  'plan-reason.movedByHand': '{operation} of {order} moved by hand',
  'plan-reason.repaired': 'Repaired',
  'plan-reason.plannedAnew': 'Planned anew',
  'plan-reason.keptForCure': 'Kept for the cure',
  'plan-reason.booked': 'Booked',
  'plan-reason.notUnderstood': 'The planner met something that it does not understand; the log says what',
  'plan-reason.refusedByChecker': 'The plan was refused by the checker: {what}',
} as const

export const patterns = {
  'incident.learnedAt':
    'By what was learned afterwards, it was at {reached} of handling strength when the clamps came off',
  'incident.learnedNotComputed':
    'By what was learned afterwards, it cannot be computed that it was ready when the clamps came off',
  'incident.overridden': '{gate} — {reason}',
  'incident.agreed': '{result}. Agreed: {reason}',
  'incident.bondedAgain': 'Bonded again',
  'incident.withNote': '{what}: {note}',
  'incident.clampedUnknown': 'Clamped while the work time could not be computed',
  'incident.clampedToldLate': 'Entered after the work time had run out, as clamped before that',
  'incident.clampedLate': 'Clamped after the work time had run out',
} as const

export const patterns = {
  'incident.learnedAt':
    'By what was learned afterwards, it was at {reached} of handling strength when the clamps came off',
  'incident.learnedNotComputed':
    'By what was learned afterwards, it cannot be computed that it was ready when the clamps came off',
  'incident.overridden': '{gate} — {reason}',
} as const

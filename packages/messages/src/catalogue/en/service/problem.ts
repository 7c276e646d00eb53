export const patterns = {
  'problem.ofField': '{field}: {what}',
} as const

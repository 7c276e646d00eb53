export const patterns = {
  'recall.owner': 'Owner',
  'recall.ownerIn': 'Owner in {shop}',
  'recall.partsManager': 'Parts manager',
  'recall.partsManagerIn': 'Parts manager in {shop}',
  'recall.made': '{joints, plural, one{Made 1 joint} other{Made # joints}} with it',
} as const

export const patterns = {
  'feed.bake': 'Bake',
  'feed.inTheBay': 'In the bay',
  'feed.work': 'Work',
  'feed.summary': '{what}: {order}, {vehicle}',
} as const

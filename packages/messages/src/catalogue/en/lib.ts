export const patterns = {
  'lib.ago': '{words} ago',
} as const

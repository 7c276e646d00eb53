export const patterns = {
  'note.slowerSheet':
    'Revision {slower} of the data sheet of {product} is slower than revision {revision}, by which it was made: the slower counts',
} as const

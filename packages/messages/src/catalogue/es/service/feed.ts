import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/feed.ts'

export const patterns: Translation<typeof english> = {
  'feed.bake': 'Horneado',
  'feed.inTheBay': 'En el puesto',
  'feed.work': 'Trabajo',
  'feed.summary': '{what}: {order}, {vehicle}',
}

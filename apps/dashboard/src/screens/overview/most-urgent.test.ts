import { describe, expect, it } from 'vitest'
import type { Alert } from '../../api/types.ts'
import { mostUrgentOf } from './most-urgent.ts'

const alert = (id: string, severity: Alert['severity'], openedAt: string) =>
  ({ id, severity, openedAt }) as Alert

describe('mostUrgentOf', () => {
  it('goes by how grave it is, whichever shop it is in, then by how long it has stood', () => {
    const alerts = [
      alert('first shop, notice', 'notice', '2031-05-01T08:00:00Z'),
      alert('first shop, warning', 'warning', '2031-05-03T08:00:00Z'),
      alert('second shop, danger', 'danger', '2031-05-04T08:00:00Z'),
      alert('second shop, warning', 'warning', '2031-05-02T08:00:00Z'),
    ]
    expect(mostUrgentOf(alerts, 3).map(({ id }) => id)).toEqual([
      'second shop, danger',
      'second shop, warning',
      'first shop, warning',
    ])
  })
})

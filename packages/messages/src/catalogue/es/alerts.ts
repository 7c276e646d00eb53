import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/alerts.ts'

export const patterns: Translation<typeof english> = {
  'alerts.openAlertsByMail': 'Open alerts by mail',
  'alerts.never': 'Never',
  'alerts.dailyAt00': 'Daily at {value}:00',
  'alerts.alerts': 'Alerts',
  'alerts.allShops': 'All shops',
  'alerts.kind': 'Kind',
  'alerts.everyKind': 'Every kind',
  'alerts.mine': 'Mine',
  'alerts.showSnoozed': 'Show snoozed',
  'alerts.closedOnes': 'Closed ones',
  'alerts.alerts2': 'alerts',
  'alerts.nothingNeedsAPersonHere': 'Nothing needs a person here.',
  'alerts.noClosedAlerts': 'No closed alerts.',
  'alerts.noOpenAlerts': 'No open alerts.',
}

import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/alerts.ts'

export const patterns: Translation<typeof english> = {
  'alerts.openAlertsByMail': 'Alertas abiertas por correo',
  'alerts.never': 'Nunca',
  'alerts.dailyAt00': 'Cada día a las {value}:00',
  'alerts.alerts': 'Alertas',
  'alerts.allShops': 'Todos los talleres',
  'alerts.kind': 'Tipo',
  'alerts.everyKind': 'Todos los tipos',
  'alerts.mine': 'Mías',
  'alerts.showSnoozed': 'Mostrar pospuestas',
  'alerts.closedOnes': 'Cerradas',
  'alerts.alerts2': 'las alertas',
  'alerts.nothingNeedsAPersonHere': 'Aquí nada necesita a una persona.',
  'alerts.noClosedAlerts': 'No hay alertas cerradas.',
  'alerts.noOpenAlerts': 'No hay alertas abiertas.',
}

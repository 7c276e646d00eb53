import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/mail.ts'

export const patterns: Translation<typeof english> = {
  'mail.subject':
    '{alerts, plural, one{# alerta abierta} other{# alertas abiertas}}{dangers, plural, =0{} other{, # de peligro}}: {on}',
  'mail.intro': 'Lo que pide atención en sus talleres:',
  'mail.alert':
    '{severity, select, danger{PELIGRO} warning{ADVERTENCIA} other{AVISO}}: {what}{owned, select, yes{ ({owner})} other{}}',
  'mail.more': 'y más.',
  'mail.heads':
    'Últimas entradas de los registros de pegado (guarde este correo: records:verify --head compara con él):',
}

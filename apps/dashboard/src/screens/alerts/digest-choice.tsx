import { ROUTES } from '../../api/contracts.ts'
import { NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { alertQueries } from '../../api/queries/alerts.ts'
import { useAction } from '../../api/use-action.ts'
import { t } from '../../lib/reader.ts'

/** At which hour open alerts come by mail; shown where this installation can send any. */
export function DigestChoice() {
  const { data } = useQuery(alertQueries.digest())
  const set = useAction(ROUTES.setDigest, { topics: ['people'] })
  if (data === undefined || !data.canSend) return null
  return (
    <NativeSelect
      label={t('alerts.openAlertsByMail')}
      value={data.hour ?? ''}
      data={[
        { value: '', label: t('alerts.never') },
        ...Array.from({ length: 24 }, (_, hour) => ({
          value: String(hour),
          label: t('alerts.dailyAt00', { value: String(hour).padStart(2, '0') }),
        })),
      ]}
      onChange={(event) => {
        const { value } = event.currentTarget
        set.mutate({ body: { hour: value === '' ? null : Number(value) } })
      }}
    />
  )
}

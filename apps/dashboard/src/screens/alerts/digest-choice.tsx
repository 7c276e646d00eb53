import { ROUTES } from '../../api/contracts.ts'
import { NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { alertQueries } from '../../api/queries/alerts.ts'
import { useAction } from '../../api/use-action.ts'

/** At which hour open alerts come by mail; shown where this installation can send any. */
export function DigestChoice() {
  const { data } = useQuery(alertQueries.digest())
  const set = useAction(ROUTES.setDigest, { topics: ['people'] })
  if (data === undefined || !data.canSend) return null
  return (
    <NativeSelect
      label="Open alerts by mail"
      value={data.hour ?? ''}
      data={[
        { value: '', label: 'Never' },
        ...Array.from({ length: 24 }, (_, hour) => ({
          value: String(hour),
          label: `Daily at ${String(hour).padStart(2, '0')}:00`,
        })),
      ]}
      onChange={(event) => {
        const { value } = event.currentTarget
        set.mutate({ body: { hour: value === '' ? null : Number(value) } })
      }}
    />
  )
}

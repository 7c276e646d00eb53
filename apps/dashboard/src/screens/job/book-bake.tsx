import { formatMinutes } from '../../lib/measures.ts'
import { ROUTES } from '../../api/contracts.ts'
import { Button, NativeSelect } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { CalendarPlus } from 'lucide-react'
import { useState } from 'react'
import { shopQueries } from '../../api/queries/shops.ts'
import type { OvenWindow, RepairOrderDetail } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import fields from '../../ui/fields/fields.module.css'
import styles from '../../features/oven/oven.module.css'
import { bakeEnd, type OvenQuestion } from '../../features/oven/program.ts'
import { formatInstant } from '../../lib/instants.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly job: RepairOrderDetail
  readonly asked: OvenQuestion
  readonly window: OvenWindow
  readonly zone: string
}

/** Books the bake that was checked, for as long as it may take. */
export function BookBake({ job, asked, window, zone }: Props) {
  const may = useMay()
  const ovens = (useQuery(shopQueries.resources(job.shopId)).data?.items ?? []).filter(
    ({ kind, active }) => kind === 'oven' && active,
  )
  const [chosen, setChosen] = useState<string>()
  const book = useAction(ROUTES.addBooking, { topics: ['bookings', 'alerts', 'repairs'] })
  const minutes = window.windowMinutes.conservative
  if (!window.mayBake || minutes === null || !may('planWork', job.shopId)) return null
  const oven = chosen ?? ovens[0]?.id
  if (oven === undefined) return <p className={fields['soft']}>{t('job.thisShopHasNoOvenToBook')}</p>
  const endsAt = bakeEnd(asked.startsAt, minutes)
  const at = (iso: string) => formatInstant(iso, zone)
  if (book.data !== undefined) {
    return (
      <div className={styles['book']} aria-live="polite">
        <Mark tone="ready">
          {t('job.bookedTo', {
            resourceName: book.data.resourceName,
            startsAt: at(book.data.startsAt),
            endsAt: formatInstant(book.data.endsAt, zone, 'clock'),
          })}
        </Mark>
        <Link to="/schedule">{t('job.openTheSchedule')}</Link>
      </div>
    )
  }
  return (
    <>
      <div className={styles['book']}>
        <NativeSelect
          label={t('job.oven')}
          value={oven}
          data={ovens.map(({ id, name }) => ({ value: id, label: name }))}
          onChange={(event) => setChosen(event.currentTarget.value)}
        />
        <Button
          leftSection={<CalendarPlus size={16} aria-hidden />}
          loading={book.isPending}
          onClick={() =>
            book.mutate({
              // As it was checked, and not as the next reading would have it.
              body: {
                ...asked,
                metalStartC: window.metalStartC,
                resourceId: oven,
                repairOrderId: job.id,
                purpose: 'bake',
                endsAt,
              },
            })
          }
        >
          {t('job.bookIt')}
        </Button>
        <p className={fields['soft']}>
          {t('job.toAsLongAsItMayTakeWithTheAirOnIts', {
            startsAt: at(asked.startsAt),
            endsAt: at(endsAt),
            minutes: formatMinutes(minutes, 'up'),
          })}
        </p>
      </div>
      <ProblemPanel error={book.error} />
    </>
  )
}

import { ROUTES } from '../../api/contracts.ts'
import { formatMinutes } from '@clampclock/quantities'
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
  if (oven === undefined) return <p className={fields['soft']}>This shop has no oven to book.</p>
  const endsAt = bakeEnd(asked.startsAt, minutes)
  const at = (iso: string) => formatInstant(iso, zone)
  if (book.data !== undefined) {
    return (
      <div className={styles['book']} aria-live="polite">
        <Mark tone="ready">
          {`Booked: ${book.data.resourceName}, ${at(book.data.startsAt)} to ${formatInstant(book.data.endsAt, zone, 'clock')}`}
        </Mark>
        <Link to="/schedule">Open the schedule</Link>
      </div>
    )
  }
  return (
    <>
      <div className={styles['book']}>
        <NativeSelect
          label="Oven"
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
          Book it
        </Button>
        <p className={fields['soft']}>
          {at(asked.startsAt)} to {at(endsAt)}: {formatMinutes(minutes, 'up')}, as long as it may take with
          the air on its cold side.
        </p>
      </div>
      <ProblemPanel error={book.error} />
    </>
  )
}

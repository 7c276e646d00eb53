import { Button } from '@mantine/core'
import { useIsPhone } from '../../lib/use-is-phone.ts'
import { useQuery } from '@tanstack/react-query'
import { useSearch } from '@tanstack/react-router'
import { CalendarPlus } from 'lucide-react'
import { useState } from 'react'
import { scheduleQueries } from '../../api/queries/schedule.ts'
import { shopQueries } from '../../api/queries/shops.ts'
import type { Booking, Shop } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { Cautions } from '../../features/bonds/cautions.tsx'
import { NoShop } from '../../features/shops/no-shop.tsx'
import { OneShopPicker } from '../../features/shops/one-shop-picker.tsx'
import { todayIn } from '../../lib/instants.ts'
import { useOneShop } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { Page } from '../../ui/page.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { BookingList } from './booking-list.tsx'
import { SpanControls } from './span-controls.tsx'
import { spanOf } from '../../features/timeline/time-scale.ts'
import { Timeline } from './timeline.tsx'
import { lazily } from '../../ui/lazily.tsx'
import { t } from '../../lib/reader.ts'

const BookingDialog = lazily(async () => (await import('./booking-dialog.tsx')).BookingDialog)

export function ScheduleScreen() {
  const { shop } = useOneShop()
  return shop === undefined ? (
    <NoShop title={t('schedule.schedule')} />
  ) : (
    <Schedule key={shop.id} shop={shop} />
  )
}

/** What is being edited: a booking, a new one (on a resource if one was pointed at), or nothing. */
type Editing = { readonly booking: Booking } | { readonly resourceId: string | undefined } | undefined

function Schedule({ shop }: { readonly shop: Shop }) {
  const search = useSearch({ from: '/in/schedule' })
  const may = useMay()
  const nowMs = useNow(60_000)
  const isPhone = useIsPhone()
  const [editing, setEditing] = useState<Editing>()
  const days = search.days ?? (isPhone ? 1 : 3)
  const from = search.from ?? todayIn(shop.timeZone, nowMs)
  const span = spanOf(from, days, shop.timeZone)
  const bookings = useQuery(
    scheduleQueries.bookings(
      shop.id,
      new Date(span.startMs).toISOString(),
      new Date(span.endMs).toISOString(),
    ),
  )
  const resources = useQuery(shopQueries.resources(shop.id))
  const places = (resources.data?.items ?? []).filter(
    ({ kind, active }) => active && (kind === 'bay' || kind === 'oven'),
  )
  const mayPlan = may('planWork', shop.id)
  return (
    <Page
      title={t('schedule.scheduleOf', { name: shop.name })}
      lede={t('schedule.timesOnTheShopsClock', { timeZone: shop.timeZone })}
      actions={
        <>
          <OneShopPicker />
          {mayPlan && (
            <Button
              leftSection={<CalendarPlus size={16} aria-hidden />}
              onClick={() => setEditing({ resourceId: undefined })}
            >
              {t('schedule.newBooking')}
            </Button>
          )}
        </>
      }
    >
      <SpanControls from={from} days={days} zone={shop.timeZone} />
      <Answered query={bookings} what={t('schedule.bookings')}>
        {({ items }) =>
          isPhone ? (
            <BookingList
              bookings={items}
              places={places}
              shop={shop}
              onOpen={(booking) => setEditing({ booking })}
            />
          ) : (
            <Timeline
              bookings={items}
              places={places}
              span={span}
              days={days}
              shop={shop}
              mayPlan={mayPlan}
              onOpen={(booking) => setEditing({ booking })}
              onNew={(resourceId) => setEditing({ resourceId })}
            />
          )
        }
      </Answered>
      {editing !== undefined && (
        <BookingDialog
          shop={shop}
          places={resources.data?.items.filter(({ active }) => active) ?? []}
          booking={'booking' in editing ? editing.booking : undefined}
          resourceId={'booking' in editing ? undefined : editing.resourceId}
          day={from}
          onClose={() => setEditing(undefined)}
        />
      )}
      <Cautions about={['bake']} />
    </Page>
  )
}

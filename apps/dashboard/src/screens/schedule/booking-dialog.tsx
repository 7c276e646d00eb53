import { Button, Group, Modal, NativeSelect, NumberInput, Stack, Textarea, TextInput } from '@mantine/core'
import { useQuery, useInfiniteQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { type ReactNode } from 'react'
import { rich } from '../../lib/rich.tsx'
import { repairQueries } from '../../api/queries/repairs.ts'
import type { Booking, Resource, Shop } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { Mark } from '../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Loading } from '../../ui/waiting.tsx'
import { BakeFacts } from './bake-facts.tsx'
import { BakePart } from './bake-part.tsx'
import { CancelBooking } from './cancel-booking.tsx'
import { useBookingForm } from './use-booking-form.ts'
import { reader, t } from '../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly places: readonly Resource[]
  /** The booking to move; a new one is made when left out. */
  readonly booking: Booking | undefined
  readonly resourceId: string | undefined
  readonly day: string
  readonly onClose: () => void
}

/** Make, move or cancel a booking, all by keyboard. Whether the place is free, the service decides. */
export function BookingDialog({ shop, places, booking, resourceId, day, onClose }: Props) {
  const may = useMay()
  const orders = useInfiniteQuery(repairQueries.list({ shopId: shop.id, state: 'open' }))
  const newest = useQuery({
    ...repairQueries.one(booking?.repairOrderId ?? ''),
    enabled: booking !== undefined,
  })
  const { form, save, others } = useBookingForm({ shop, places, booking, resourceId, day, onClose })
  const isPlanned = booking !== undefined && booking.planId !== null
  const mayChange = may('planWork', shop.id) && !isPlanned
  const isNew = booking === undefined
  const clash = booking?.clash ?? null
  const standsIn = newest.data?.bay ?? null
  const title = isNew ? t('schedule.newBooking') : `${booking.vehicle}, ${booking.repairOrderNumber}`
  const resource = places.find(({ id }) => id === form.values.resourceId)
  const orderChoices = orders.data?.pages.flatMap((page) => page.items) ?? []
  if (isNew && orders.data === undefined) {
    return (
      <Modal opened onClose={onClose} title={title}>
        <Loading what={t('schedule.repairOrders')} />
      </Modal>
    )
  }
  const toPlan = (children: ReactNode) => (
    <Link to="/plan" search={{ shop: shop.id }}>
      {children}
    </Link>
  )
  return (
    <Modal opened onClose={onClose} title={title} size="md">
      <form onSubmit={form.onSubmit(save.submit)}>
        <Stack gap="md">
          {clash !== null && (
            <div>
              <Mark tone="danger">{clash.message}</Mark>
              <p style={{ margin: '0.25rem 0 0' }}>{clash.proposal}</p>
            </div>
          )}
          {isNew ? (
            <NativeSelect
              label={t('schedule.repairOrder')}
              required
              data={[
                { value: '', label: t('schedule.choose') },
                ...orderChoices.map(({ id, number, vehicle }) => ({
                  value: id,
                  label: `${number}: ${vehicle}`,
                })),
              ]}
              {...form.getInputProps('repairOrderId')}
            />
          ) : (
            <Link to="/jobs/$repairOrderId" params={{ repairOrderId: booking.repairOrderId }}>
              {standsIn === null
                ? t('schedule.openTheJob')
                : t('schedule.openTheJobNowIn', { name: standsIn.name })}
            </Link>
          )}
          {isPlanned && (
            <p style={{ margin: 0 }}>
              {booking.operationName === null
                ? rich('schedule.bookedByThePlan', { link: toPlan })
                : rich('schedule.bookedByThePlanFor', { operation: booking.operationName, link: toPlan })}
            </p>
          )}
          <NativeSelect
            label={t('schedule.bayOvenClampSetOrTechnician')}
            required
            disabled={!mayChange}
            data={[
              { value: '', label: t('schedule.choose') },
              ...places.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            {...form.getInputProps('resourceId')}
          />
          {booking?.purpose === 'bake' && !isPlanned && (
            <BakeFacts booking={booking} unit={reader().temperature} />
          )}
          {isNew && (resource?.capacity ?? 1) > 1 && (
            <NumberInput
              label={t('schedule.howMany')}
              min={1}
              max={resource?.capacity ?? 1}
              {...form.getInputProps('units')}
            />
          )}
          <TextInput
            label={t('schedule.from')}
            description={t('schedule.clockOf', { name: shop.name })}
            type="datetime-local"
            required
            disabled={!mayChange}
            {...form.getInputProps('startsAt')}
          />
          {isNew && resource?.kind === 'oven' && <BakePart form={form} shop={shop} />}
          <TextInput
            label={t('schedule.to2')}
            type="datetime-local"
            required
            disabled={!mayChange}
            {...form.getInputProps('endsAt')}
          />
          <Textarea
            label={t('schedule.note')}
            autosize
            disabled={!mayChange}
            {...form.getInputProps('note')}
          />
          <ProblemPanel error={save.error} reasons={others} />
          <Group justify="space-between">
            {booking !== undefined && mayChange ? (
              <CancelBooking booking={booking} onDone={onClose} />
            ) : (
              <span />
            )}
            <Group>
              <Button variant="default" onClick={onClose}>
                {t('schedule.back')}
              </Button>
              {mayChange && (
                <Button type="submit" loading={save.isPending}>
                  {isNew ? t('schedule.book') : t('schedule.save')}
                </Button>
              )}
            </Group>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}

import { ROUTES } from '../../api/contracts.ts'
import { useForm, type UseFormReturnType } from '@mantine/form'
import type { Booking, Resource, Shop } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { programOf, USUAL_PROGRAM, type ProgramValues } from '../../features/oven/program.ts'
import { fromWallClock, toWallClock } from '../../lib/instants.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { t } from '../../lib/reader.ts'

interface Options {
  readonly shop: Shop
  readonly places: readonly Resource[]
  readonly booking: Booking | undefined
  readonly resourceId: string | undefined
  readonly day: string
  readonly onClose: () => void
}

interface Values {
  repairOrderId: string
  resourceId: string
  startsAt: string
  endsAt: string
  /** A bake is given by the oven's program, or by what the metal gets to. */
  bakeBy: 'program' | 'metal'
  bakeProgram: ProgramValues
  highestMetalC: number | undefined
  units: number | string
  note: string
}

export type BookingForm = UseFormReturnType<Values>

/** The form of a booking on the shop's wall clock: a new one, or the one to be moved. */
export function useBookingForm({ shop, places, booking, resourceId, day, onClose }: Options) {
  const zone = shop.timeZone
  const form = useForm<Values>({
    initialValues: {
      repairOrderId: booking?.repairOrderId ?? '',
      resourceId: booking?.resourceId ?? resourceId ?? '',
      startsAt: booking === undefined ? `${day}T08:00` : toWallClock(booking.startsAt, zone),
      endsAt: booking === undefined ? `${day}T17:00` : toWallClock(booking.endsAt, zone),
      bakeBy: 'program',
      bakeProgram: USUAL_PROGRAM,
      highestMetalC: booking?.highestMetalC ?? undefined,
      units: booking?.units ?? 1,
      note: booking?.note ?? '',
    },
    validate: {
      startsAt: (text) => faultOf(text, zone),
      endsAt: (text, { startsAt }) =>
        faultOf(text, zone) ?? (text <= startsAt ? t('schedule.mustBeAfterTheStart') : null),
    },
  })
  const options = { topics: ['bookings', 'alerts', 'repairs'] as const, onDone: onClose }
  const add = useAction(ROUTES.addBooking, options)
  const move = useAction(ROUTES.moveBooking, options)
  const error = add.error ?? move.error
  const others = useFormReasons(form, error)
  const submit = (values: Values) => {
    const startsAt = isoOf(values.startsAt, zone)
    const endsAt = isoOf(values.endsAt, zone)
    if (startsAt === undefined || endsAt === undefined) return
    const { resourceId: place, note } = values
    if (booking !== undefined) {
      move.mutate({
        params: { bookingId: booking.id },
        ifMatch: booking.version,
        body: { resourceId: place, startsAt, endsAt, note },
      })
      return
    }
    // An oven is booked to bake in, and for nothing else.
    const isOven = places.some(({ id, kind }) => id === place && kind === 'oven')
    add.mutate({
      body: {
        resourceId: place,
        repairOrderId: values.repairOrderId,
        purpose: isOven ? 'bake' : 'work',
        startsAt,
        endsAt,
        ...(isOven ? heatOf(values) : {}),
        units: Number(values.units),
        note,
      },
    })
  }
  return { form, others, save: { submit, error, isPending: add.isPending || move.isPending } }
}

function heatOf({ bakeBy, bakeProgram, highestMetalC }: Values) {
  if (bakeBy === 'metal') return { highestMetalC: highestMetalC ?? null, bakeProgram: null }
  return { highestMetalC: null, bakeProgram: programOf(bakeProgram) }
}

function faultOf(text: string, zone: string): string | null {
  const read = fromWallClock(text, zone)
  return 'fault' in read ? read.fault : null
}

function isoOf(text: string, zone: string): string | undefined {
  const read = fromWallClock(text, zone)
  return 'iso' in read ? read.iso : undefined
}

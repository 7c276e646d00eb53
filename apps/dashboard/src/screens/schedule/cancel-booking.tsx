import { ROUTES } from '../../api/contracts.ts'
import type { Booking } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { AskOnceMore } from '../../ui/dialogs/ask-once-more.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly booking: Booking
  readonly onDone: () => void
}

export function CancelBooking({ booking, onDone }: Props) {
  const cancel = useAction(ROUTES.cancelBooking, { topics: ['bookings', 'alerts', 'repairs'], onDone })
  return (
    <AskOnceMore
      label={t('schedule.cancelBooking')}
      sentence={t('schedule.thePlaceIsFreeForOthersAtOnce')}
      yes={t('schedule.cancelIt')}
      no={t('schedule.keepIt')}
      isPending={cancel.isPending}
      error={cancel.error}
      onYes={() => cancel.mutate({ params: { bookingId: booking.id } })}
    />
  )
}

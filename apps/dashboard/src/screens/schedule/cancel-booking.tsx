import { ROUTES } from '../../api/contracts.ts'
import type { Booking } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { AskOnceMore } from '../../ui/dialogs/ask-once-more.tsx'

interface Props {
  readonly booking: Booking
  readonly onDone: () => void
}

export function CancelBooking({ booking, onDone }: Props) {
  const cancel = useAction(ROUTES.cancelBooking, { topics: ['bookings', 'alerts', 'repairs'], onDone })
  return (
    <AskOnceMore
      label="Cancel booking…"
      sentence="The place is free for others at once."
      yes="Cancel it"
      no="Keep it"
      isPending={cancel.isPending}
      error={cancel.error}
      onYes={() => cancel.mutate({ params: { bookingId: booking.id } })}
    />
  )
}

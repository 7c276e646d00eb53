import { ROUTES } from '@clampclock/contracts'
import { Button, Popover, Stack } from '@mantine/core'
import { useState } from 'react'
import type { Booking } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'

interface Props {
  readonly booking: Booking
  readonly onDone: () => void
}

/** Asks once more: a cancelled booking frees the place for others at once. */
export function CancelBooking({ booking, onDone }: Props) {
  const [isAsking, setAsking] = useState(false)
  const cancel = useAction(ROUTES.cancelBooking, { topics: ['bookings', 'alerts', 'repairs'], onDone })
  return (
    <Popover opened={isAsking} onChange={setAsking} position="top-start" width={280} trapFocus>
      <Popover.Target>
        <Button variant="default" onClick={() => setAsking(true)}>
          Cancel booking…
        </Button>
      </Popover.Target>
      <Popover.Dropdown aria-label="Cancel the booking?">
        <Stack gap="sm">
          <span>The place is free for others at once.</span>
          <ProblemPanel error={cancel.error} />
          <Button
            color="red"
            loading={cancel.isPending}
            onClick={() => cancel.mutate({ params: { bookingId: booking.id } })}
          >
            Cancel it
          </Button>
          <Button variant="default" onClick={() => setAsking(false)}>
            Keep it
          </Button>
        </Stack>
      </Popover.Dropdown>
    </Popover>
  )
}

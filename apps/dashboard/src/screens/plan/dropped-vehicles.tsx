import { Checkbox } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { Plan } from '../../api/types.ts'
import { FormDialog } from '../../ui/form-dialog.tsx'
import { Mark } from '../../ui/mark.tsx'
import { dropped } from './plan-figures.ts'
import styles from './plan-run.module.css'

type Orders = Plan['leftOut']

/** So that the picture stays on the screen. */
const NAMES_SHOWN = 3

/** The first thing to know of a draft: for which vehicles it plans nothing, and why. */
export function DroppedVehicles({ orders }: { readonly orders: Orders }) {
  if (orders.length === 0) return null
  const rest = orders.slice(NAMES_SHOWN)
  return (
    <section className={styles['dropped']} aria-label="Dropped by the draft">
      <Mark tone="danger">{dropped(orders.length)}</Mark>
      <Names orders={orders.slice(0, NAMES_SHOWN)} />
      {rest.length > 0 && (
        <details>
          <summary>{rest.length} more</summary>
          <Names orders={rest} />
        </details>
      )}
    </section>
  )
}

function Names({ orders }: { readonly orders: Orders }) {
  return (
    <ul className={styles['names']}>
      {orders.map(({ id, number, vehicle, reasons }) => (
        <li key={id}>
          <Link to="/jobs/$repairOrderId" params={{ repairOrderId: id }}>
            {`${number}, ${vehicle}`}
          </Link>
          : {reasons.join('; ')}
        </li>
      ))}
    </ul>
  )
}

interface Props {
  readonly orders: Orders
  readonly isPending: boolean
  readonly error: Error | null
  readonly onClose: () => void
  readonly onConfirm: (ids: string[]) => void
}

/** Publishing drops vehicles: their names are read before it happens, and what was read is what is confirmed. */
export function PublishDialog({ orders, isPending, error, onClose, onConfirm }: Props) {
  const [shown] = useState(orders)
  const [isSure, setSure] = useState(false)
  return (
    <FormDialog
      title={`Publish with ${dropped(shown.length)}?`}
      onClose={onClose}
      onSubmit={(event) => {
        event.preventDefault()
        onConfirm(shown.map(({ id }) => id))
      }}
      submitLabel="Publish without them"
      isPending={isPending}
      error={error}
      isClosed={!isSure}
    >
      <div>
        Nothing is planned for, and bookings of the published plan are lost by:
        <Names orders={shown} />
      </div>
      <Checkbox
        label="I have read the names: these vehicles are left out"
        checked={isSure}
        onChange={(event) => setSure(event.currentTarget.checked)}
      />
    </FormDialog>
  )
}

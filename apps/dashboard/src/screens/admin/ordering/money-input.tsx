import { NumberInput } from '@mantine/core'
import type { ReactNode } from 'react'

interface Props {
  readonly label: string
  readonly description?: ReactNode
  readonly currency: string
  readonly cents: number
  readonly onChange: (cents: number) => void
  readonly error?: ReactNode
}

/** Money is whole cents everywhere but on the screen. */
export function MoneyInput({ label, description, currency, cents, onChange, error }: Props) {
  return (
    <NumberInput
      label={`${label}, ${currency}`}
      description={description}
      required
      min={0}
      decimalScale={2}
      fixedDecimalScale
      value={cents / 100}
      onChange={(value) => onChange(Math.round(Number(value) * 100))}
      error={error}
    />
  )
}

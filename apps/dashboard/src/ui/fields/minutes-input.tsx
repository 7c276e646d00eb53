import { MINUTES_PER_HOUR } from '@clampclock/quantities'
import { NumberInput } from '@mantine/core'
import { useState, type ReactNode } from 'react'
import { UNIT_WIDTH, UnitSelect } from './unit-select.tsx'

const UNITS = { min: 'min', h: 'h' } as const
const MINUTES_IN = { min: 1, h: MINUTES_PER_HOUR } as const

interface Props {
  readonly label: string
  readonly minutes: number | string
  readonly onChangeMinutes: (minutes: number | string) => void
  readonly error?: ReactNode
  readonly required?: boolean
}

/** A time as the sheet prints it, in minutes or hours; what is stored and sent is minutes. */
export function MinutesInput({ minutes, onChangeMinutes, ...rest }: Props) {
  const [unit, setUnit] = useState<keyof typeof UNITS>('min')
  const shown = minutes === '' ? '' : round(Number(minutes) / MINUTES_IN[unit])
  // As with temperatures: what is being typed is kept as typed.
  const [typed, setTyped] = useState<number | string>(shown)
  const isSame = typed === '' ? minutes === '' : round(Number(typed)) === shown
  return (
    <NumberInput
      {...rest}
      inputMode="decimal"
      hideControls
      rightSectionWidth={UNIT_WIDTH}
      rightSection={<UnitSelect unit={unit} units={UNITS} onChange={setUnit} />}
      value={isSame ? typed : shown}
      onChange={(value) => {
        setTyped(value)
        const number = Number(value)
        onChangeMinutes(value === '' || Number.isNaN(number) ? '' : round(number * MINUTES_IN[unit]))
      }}
    />
  )
}

/** No 0.30000000000000004 h; finer than any sheet prints. */
function round(value: number): number {
  return Math.round(value * 10_000) / 10_000
}

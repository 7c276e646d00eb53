import { useState, type ComponentProps } from 'react'
import { TemperatureInput } from './temperature-input.tsx'
import { UNIT_WIDTH, UnitSelect } from './unit-select.tsx'

const UNITS = { C: '°C', F: '°F' } as const

type Props = Omit<ComponentProps<typeof TemperatureInput>, 'rightSection' | 'rightSectionWidth'>

/** A temperature in the unit of what one copies it from: begins in the reader's, and switches by itself. */
export function AnyUnitTemperature({ unit: usual, ...rest }: Props) {
  const [unit, setUnit] = useState(usual)
  return (
    <TemperatureInput
      {...rest}
      unit={unit}
      rightSectionWidth={UNIT_WIDTH}
      rightSection={<UnitSelect unit={unit} units={UNITS} onChange={setUnit} />}
    />
  )
}

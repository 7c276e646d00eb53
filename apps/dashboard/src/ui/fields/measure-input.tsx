import { inchesToMm, mlToUsFluidOunces, mmToInches, usFluidOuncesToMl } from '@clampclock/quantities'
import { NumberInput, type NumberInputProps } from '@mantine/core'
import { useState } from 'react'
import { useReader } from '../../lib/reader.ts'

interface Unit {
  readonly sign: string
  readonly toShown: (value: number) => number
  readonly toStored: (shown: number) => number
  /** Decimals that are shown: finer than anybody reads off a cartridge or a rule. */
  readonly digits: number
}

const same = (value: number) => value

const UNITS = {
  mL: { sign: 'mL', toShown: same, toStored: same, digits: 1 },
  flOz: { sign: 'fl oz', toShown: mlToUsFluidOunces, toStored: usFluidOuncesToMl, digits: 2 },
  mm: { sign: 'mm', toShown: same, toStored: same, digits: 2 },
  in: { sign: 'in', toShown: mmToInches, toStored: inchesToMm, digits: 4 },
} as const satisfies Record<string, Unit>

type Props = Omit<NumberInputProps, 'value' | 'defaultValue' | 'onChange' | 'suffix' | 'decimalScale'> & {
  /** Stored: mL, or mm; '' for none. */
  readonly value?: number | string
  readonly onChange?: (value: number | string) => void
}

/** A volume, stored in mL, typed and shown in the reader's unit. */
export function VolumeInput(props: Props) {
  return <Measure {...props} unit={UNITS[useReader().volume]} />
}

/** A length, stored in mm, typed and shown in the reader's unit. */
export function LengthInput(props: Props) {
  return <Measure {...props} unit={UNITS[useReader().length]} />
}

function Measure({ unit, value, onChange, min, max, step, ...rest }: Props & { readonly unit: Unit }) {
  const round = (number: number) => Number(number.toFixed(unit.digits))
  const shown = value === undefined || value === '' ? '' : round(unit.toShown(Number(value)))
  // What is being typed is kept as typed: converting there and back at each key would move the digits about.
  const [typed, setTyped] = useState<number | string>(shown)
  const isSame = typed === '' ? shown === '' : round(Number(typed)) === shown
  const limit = (number: number | undefined) => (number === undefined ? {} : round(unit.toShown(number)))
  return (
    <NumberInput
      {...rest}
      inputMode="decimal"
      suffix={` ${unit.sign}`}
      // An empty field says its unit too.
      placeholder={unit.sign}
      decimalScale={unit.digits}
      {...(min === undefined ? {} : { min: limit(Number(min)) as number })}
      {...(max === undefined ? {} : { max: limit(Number(max)) as number })}
      {...(step === undefined ? {} : { step: unit.toShown === same ? step : 10 ** -(unit.digits - 1) })}
      value={isSame ? typed : shown}
      onChange={(next) => {
        setTyped(next)
        const number = Number(next)
        // Microlitres and tenths of micrometres: exact for what can be typed, and no 3.0000000000000004 in the record.
        onChange?.(next === '' || Number.isNaN(number) ? '' : Math.round(unit.toStored(number) * 1e4) / 1e4)
      }}
    />
  )
}

import {
  celsiusDifferenceToFahrenheit,
  celsiusToFahrenheit,
  fahrenheitDifferenceToCelsius,
  fahrenheitToCelsius,
} from '@clampclock/quantities'
import { NumberInput } from '@mantine/core'
import { useRef, useState, type ReactNode } from 'react'

interface Props {
  readonly label: string
  readonly unit: 'C' | 'F'
  readonly valueC: number | undefined
  readonly onChangeC: (valueC: number | undefined) => void
  /** A span of degrees, such as an accuracy: no offset between the scales. */
  readonly isDifference?: boolean
  readonly description?: ReactNode
  readonly error?: ReactNode
  readonly required?: boolean
  readonly disabled?: boolean
  /** Takes the focus when its dialog opens. */
  readonly isFirst?: boolean
  /** By what a form finds it that goes on to what is still open. */
  readonly 'data-open'?: string
  /** What stands at its right end and says the unit, and how wide it is, px. */
  readonly rightSection?: ReactNode
  readonly rightSectionWidth?: number
}

/**
 * A temperature in the reader's unit; what is stored and sent is degC. Whoever types the letter of the other unit behind
 * the number has read it in that one: it is converted, not taken for what it is not.
 */
export function TemperatureInput({
  unit,
  valueC,
  onChangeC,
  isDifference = false,
  isFirst = false,
  ...rest
}: Props) {
  const shown = valueC === undefined ? '' : round(toShown(valueC, unit, isDifference))
  // What is being typed is kept as typed: converting there and back at each key would move the digits about.
  const [typed, setTyped] = useState<number | string>(shown)
  /** Converted once: the same key held, or pressed again, is no other temperature. */
  const isConverted = useRef(false)
  const isSame = typed === '' ? valueC === undefined : round(Number(typed)) === shown
  return (
    <NumberInput
      {...rest}
      inputMode="decimal"
      suffix={rest.rightSection === undefined ? ` °${unit}` : ''}
      // An empty field says its unit too.
      placeholder={rest.rightSection === undefined ? `°${unit}` : ''}
      decimalScale={1}
      hideControls
      {...(isFirst ? { 'data-autofocus': true } : {})}
      value={isSame ? typed : shown}
      onKeyDown={(event) => {
        const other = unit === 'C' ? 'F' : 'C'
        const number = isSame && typed !== '' && !isConverted.current ? Number(typed) : Number.NaN
        if (event.key.toUpperCase() !== other || event.ctrlKey || event.metaKey || Number.isNaN(number))
          return
        const c = toCelsius(number, other, isDifference)
        isConverted.current = true
        setTyped(round(toShown(c, unit, isDifference)))
        onChangeC(c)
      }}
      onChange={(value) => {
        isConverted.current = false
        setTyped(value)
        const number = Number(value)
        onChangeC(value === '' || Number.isNaN(number) ? undefined : toCelsius(number, unit, isDifference))
      }}
    />
  )
}

function toShown(c: number, unit: 'C' | 'F', isDifference: boolean): number {
  if (unit === 'C') return c
  return isDifference ? celsiusDifferenceToFahrenheit(c) : celsiusToFahrenheit(c)
}

function toCelsius(shown: number, unit: 'C' | 'F', isDifference: boolean): number {
  if (unit === 'C') return shown
  // Two decimals: finer than any thermometer, and no 21.666666666666668 in the record.
  const c = isDifference ? fahrenheitDifferenceToCelsius(shown) : fahrenheitToCelsius(shown)
  return Math.round(c * 100) / 100
}

function round(value: number): number {
  return Math.round(value * 10) / 10
}

import type { FormEvent } from 'react'
import { formatNumber } from './measures.ts'

type Sign = '.' | ','

/** What stands before the decimals of a number where the reader's language is written. */
export function decimalSign(): Sign {
  return formatNumber(0.5).includes(',') ? ',' : '.'
}

const GROUPED = { ',': /^\D*[1-9]\d{0,2},\d{3}\D*$/, '.': /^\D*[1-9]\d{0,2}\.\d{3}\D*$/ }

/**
 * A number as typed, its decimals after the reader's sign. Where the other one may group thousands (1,440) or there are
 * more signs than one (1,234.5), it is left as it is.
 */
export function withDecimalSign(text: string, sign: Sign): string {
  const other = sign === '.' ? ',' : '.'
  const isOne = text.split(other).length === 2 && !text.includes(sign)
  return isOne && !GROUPED[other].test(text) ? text.replace(other, sign) : text
}

/**
 * Typed key by key, either sign is taken for that of the language by the number field itself; set at once (by a phone's
 * keyboard, or dictated) the other would be dropped, and 21,5 read as 215. For `onInputCapture`, before the field reads it.
 */
export function readDecimalSign(event: FormEvent<HTMLInputElement>): void {
  const input = event.currentTarget
  const text = withDecimalSign(input.value, decimalSign())
  if (text === input.value) return
  const { selectionStart, selectionEnd } = input
  // React keeps its own setter on the element, and would not tell the field of a value set through it.
  Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(input, text)
  input.setSelectionRange(selectionStart, selectionEnd)
}

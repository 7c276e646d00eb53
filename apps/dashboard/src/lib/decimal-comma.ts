import type { FormEvent } from 'react'

const GROUPED = /^\D*[1-9]\d{0,2},\d{3}\D*$/

/**
 * A number as typed, its decimal comma written as a point. Where a comma may group thousands (1,440) or there are more
 * signs than one (1,234.5), it is left as it is.
 */
export function withDecimalPoint(text: string): string {
  const isOne = text.split(',').length === 2 && !text.includes('.')
  return isOne && !GROUPED.test(text) ? text.replace(',', '.') : text
}

/**
 * Typed key by key, a comma is taken for a point by the number field itself; set at once (by a phone's keyboard, or
 * dictated) it would be dropped, and 21,5 read as 215. For `onInputCapture`, before the field reads it.
 */
export function readDecimalComma(event: FormEvent<HTMLInputElement>): void {
  const input = event.currentTarget
  const text = withDecimalPoint(input.value)
  if (text === input.value) return
  const { selectionStart, selectionEnd } = input
  // React keeps its own setter on the element, and would not tell the field of a value set through it.
  Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(input, text)
  input.setSelectionRange(selectionStart, selectionEnd)
}

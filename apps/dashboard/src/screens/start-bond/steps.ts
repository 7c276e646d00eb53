import type { KeyboardEvent } from 'react'
import { missingIn, type Draft } from './application.ts'
import type { AskedStep } from './prepare/steps-asked.ts'
import type { StepState } from './step.tsx'

/** What the form asks for, in the order of the five steps. */
const FIELDS = [
  ['cartridge', 'dispenser', 'bay', 'amount'],
  ['preparation'],
  ['panel', 'air', 'humidity', 'airReadWith'],
] as const
type Field = (typeof FIELDS)[number][number]

/** What is still open, in the order of the steps. */
export function openFields(draft: Draft, asked: readonly Pick<AskedStep, 'code'>[]): readonly Field[] {
  const open = new Set(missingIn(draft).map(({ field }) => field))
  if (asked.some(({ code }) => !draft.prepared.includes(code))) open.add('preparation')
  return FIELDS.flat().filter((field) => open.has(field))
}

/** Of the five steps; the last two come once the first three are done. */
export function stepStates(
  open: readonly Field[],
): readonly [StepState, StepState, StepState, StepState, StepState] {
  const isOpen = FIELDS.map((fields) => fields.some((field) => open.includes(field)))
  const first = isOpen.includes(true) ? isOpen.indexOf(true) : FIELDS.length
  const state = (step: number): StepState =>
    step === first ? 'now' : isOpen[step] === false ? 'done' : 'next'
  return [state(0), state(1), state(2), state(3), state(4)]
}

const TYPES_TEXT = new Set(['text', 'number', 'tel', 'checkbox'])

/** Enter in a field, or a press that ends a step: on to what is still open, and with nothing open to the button of the start. */
export function goOn(
  event: KeyboardEvent<HTMLElement> | undefined,
  form: HTMLElement | null,
  open: readonly Field[],
): void {
  if (event !== undefined) {
    const { target, key } = event
    if (key !== 'Enter' || event.defaultPrevented || event.nativeEvent.isComposing) return
    // A button does what it says, a list opens, and a longer text has lines.
    if (!(target instanceof HTMLInputElement) || !TYPES_TEXT.has(target.type)) return
    // Fields of an answer (a reason, a question) are not of the steps.
    if (target.closest('[data-outcome]') !== null) return
    event.preventDefault()
  }
  const place = form?.querySelector(`[data-open="${open[0] ?? 'press'}"]`)
  const control = place?.matches('input, select, button')
    ? place
    : place?.querySelector('input, select, button')
  if (control instanceof HTMLElement) control.focus()
}

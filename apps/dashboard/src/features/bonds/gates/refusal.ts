import type { WireReason } from '@clampclock/contracts'
import { ProblemError } from '../../../api/problem.ts'

/** Reasons written against gates that refuse, by the gate's code. */
export type Written = Readonly<Record<string, string>>

/** What stands against an act under one code; joints may share one, and then share its written reason. */
export interface Gate {
  readonly code: string
  readonly isOverridable: boolean
  readonly reasons: readonly WireReason[]
}

export function gatesOf(reasons: readonly WireReason[]): readonly Gate[] {
  const codes = [...new Set(reasons.map(({ code }) => code))]
  return codes.map((code) => {
    const own = reasons.filter((reason) => reason.code === code)
    return { code, reasons: own, isOverridable: own.every(({ overridable }) => overridable === true) }
  })
}

/** The reasons of a refusal that somebody entitled may go on in spite of, or of some of it; undefined for any other error. */
export function refusalOf(error: Error | null): readonly WireReason[] | undefined {
  if (!(error instanceof ProblemError)) return undefined
  return error.reasons.some(({ overridable }) => overridable === true) ? error.reasons : undefined
}

/** As the service takes them; what was left empty is not sent. */
export function overridesOf(written: Written): { code: string; reason: string }[] {
  return Object.entries(written)
    .filter(([, reason]) => reason.trim() !== '')
    .map(([code, reason]) => ({ code, reason: reason.trim() }))
}

/** Whether every gate may be overridden at all: else writing reasons leads nowhere. */
export function mayBeOverridden(reasons: readonly WireReason[]): boolean {
  return reasons.length > 0 && reasons.every(({ overridable }) => overridable === true)
}

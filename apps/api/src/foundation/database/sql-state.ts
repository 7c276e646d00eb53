interface Cause {
  readonly originalCode?: string
  readonly originalMessage?: string
  readonly code?: string
  readonly message?: string
  readonly constraint?: { readonly index?: string } | string
}

function causeOf(error: unknown): Cause | undefined {
  const e = error as { meta?: { driverAdapterError?: { cause?: Cause } }; cause?: Cause } | null | undefined
  return e?.meta?.driverAdapterError?.cause ?? e?.cause
}

/** SQLSTATE behind a database error, whether a call, raw SQL or COMMIT raised it. */
export function sqlState(error: unknown): string | undefined {
  const cause = causeOf(error)
  return cause?.originalCode ?? cause?.code
}

/** Name of the violated constraint or index, as far as the driver tells: for some errors it is only in the message. */
export function violatedConstraint(error: unknown): string | undefined {
  const cause = causeOf(error)
  if (typeof cause?.constraint === 'object' && cause.constraint.index) return cause.constraint.index
  const text = cause?.originalMessage ?? cause?.message ?? (error as Error | undefined)?.message ?? ''
  return /constraint "([a-z_]+)"/.exec(text)?.[1] ?? /\b([a-z]+(?:_[a-z]+)*__[a-z_]+)\b/.exec(text)?.[1]
}

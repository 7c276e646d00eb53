import type { ProblemIssue } from './problem-error.ts'

/** Reads unknown JSON field by field; faults are collected, and a harmless value stands in so that reading goes on. */
export class JsonReader {
  readonly issues: ProblemIssue[] = []

  fault(field: string, value: unknown, fix: string): void {
    this.issues.push({ field, value, fix })
  }

  record(value: unknown, field: string, known: readonly string[]): Record<string, unknown> {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      this.fault(field, value, 'give an object')
      return {}
    }
    for (const key of Object.keys(value)) {
      if (!known.includes(key))
        this.fault(`${field}.${key}`, Reflect.get(value, key), `remove it; known: ${known.join(', ')}`)
    }
    return Object.fromEntries(Object.entries(value))
  }

  list<T>(value: unknown, field: string, read: (item: unknown, field: string) => T): T[] {
    if (value === undefined || value === null) return []
    if (!Array.isArray(value)) {
      this.fault(field, value, 'give a list')
      return []
    }
    return value.map((item: unknown, i) => read(item, `${field}[${i}]`))
  }

  whole(
    value: unknown,
    field: string,
    range: { min?: number; max?: number; otherwise?: number } = {},
  ): number {
    const { min = 0, max = Number.MAX_SAFE_INTEGER, otherwise } = range
    if ((value === undefined || value === null) && otherwise !== undefined) return otherwise
    if (typeof value === 'number' && Number.isSafeInteger(value) && value >= min && value <= max) return value
    this.fault(field, value, `give a whole number from ${min} to ${max}`)
    return otherwise ?? min
  }

  wholeOrNull(value: unknown, field: string, range: { min?: number; max?: number } = {}): number | null {
    return value === undefined || value === null ? null : this.whole(value, field, range)
  }

  /** A price: any finite number from 0. */
  price(value: unknown, field: string, otherwise: number): number {
    if (value === undefined || value === null) return otherwise
    if (typeof value === 'number' && Number.isFinite(value) && value >= 0) return value
    this.fault(field, value, 'give a number from 0')
    return otherwise
  }

  text(value: unknown, field: string): string {
    if (typeof value === 'string' && value !== '') return value
    this.fault(field, value, 'give a name that is not empty')
    return ''
  }

  textOrNull(value: unknown, field: string): string | null {
    return value === undefined || value === null ? null : this.text(value, field)
  }

  oneOf<const T extends string>(value: unknown, field: string, choices: readonly T[], otherwise: T): T {
    if (value === undefined || value === null) return otherwise
    const found = choices.find((choice) => choice === value)
    if (found === undefined) this.fault(field, value, `give one of: ${choices.join(', ')}`)
    return found ?? otherwise
  }

  flag(value: unknown, field: string): boolean {
    if (value === undefined || value === null) return false
    if (typeof value !== 'boolean') this.fault(field, value, 'give true or false')
    return value === true
  }
}

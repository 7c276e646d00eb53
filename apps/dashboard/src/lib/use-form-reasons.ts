import type { ProblemReason } from '@clampclock/contracts'
import type { UseFormReturnType } from '@mantine/form'
import { useEffect, useMemo } from 'react'
import { ProblemError, sortReasons } from '../api/problem.ts'

/** The paths of every value in a form: `sheet.points.0.temperatureC`. */
export function pathsOf(values: unknown, prefix = ''): string[] {
  if (typeof values !== 'object' || values === null) return [prefix]
  const inner = Object.entries(values).flatMap(([name, value]) =>
    pathsOf(value, prefix === '' ? name : `${prefix}.${name}`),
  )
  return prefix === '' ? inner : [prefix, ...inner]
}

/** Shows each refusal beside the field that it names. @returns those that name no field of the form. */
export function useFormReasons<Values extends object>(
  form: Pick<UseFormReturnType<Values>, 'setErrors' | 'getValues'>,
  error: Error | null,
): readonly ProblemReason[] {
  const { setErrors, getValues } = form
  const sorted = useMemo(
    () =>
      error instanceof ProblemError
        ? sortReasons(error.reasons, pathsOf(getValues()))
        : { byField: {}, others: [] },
    [error, getValues],
  )
  useEffect(() => {
    if (error !== null) setErrors(sorted.byField)
  }, [error, sorted, setErrors])
  return sorted.others
}

import type { WireReason } from '@clampclock/contracts'
import type { UseFormReturnType } from '@mantine/form'
import { useEffect, useMemo } from 'react'
import { ProblemError, sortReasons } from '../api/problem.ts'

/**
 * The paths of every field of a form: `sheet.points.0.temperatureC`. A list of things is not one itself, since no
 * input would show its fault; a list of words is, as one input holds them all.
 */
export function pathsOf(values: unknown, prefix = ''): string[] {
  if (typeof values !== 'object' || values === null) return [prefix]
  if (Array.isArray(values) && values.every((value) => typeof value !== 'object')) return [prefix]
  return Object.entries(values).flatMap(([name, value]) =>
    pathsOf(value, prefix === '' ? name : `${prefix}.${name}`),
  )
}

/** Shows each refusal beside the field that it names. @returns those that name no field of the form. */
export function useFormReasons<Values extends object>(
  form: Pick<UseFormReturnType<Values>, 'setErrors' | 'getValues'>,
  error: Error | null,
): readonly WireReason[] {
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

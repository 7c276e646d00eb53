import { newStep, type StepValues } from '../../features/operations/step-values.ts'
import { stageOf, unitAt } from '../../features/operations/sequence.ts'

export interface TemplateValues {
  name: string
  steps: StepValues[]
}

/** The joint's steps as they are, then the vehicle's in the order in which they are done. */
export function inOrder(steps: readonly StepValues[]): StepValues[] {
  return steps.toSorted((a, b) => stageOf(a) - stageOf(b))
}

export function without(steps: readonly StepValues[], at: number): StepValues[] {
  const { from, size } = unitAt(steps, at)
  return steps.toSpliced(from, size)
}

/** A bond comes with its cure. */
export function withAnother(steps: readonly StepValues[], kind: StepValues['kind']): StepValues[] {
  return inOrder([...steps, newStep(kind), ...(kind === 'bondAndClamp' ? [newStep('cure')] : [])])
}

/** Minutes of people's work; what takes time by itself counts nothing. */
export function minutesOfPeople(
  steps: readonly { workMinutes: number | string | null; technicians: number | string }[],
): number {
  return steps.reduce(
    (sum, { workMinutes, technicians }) => sum + Number(workMinutes ?? 0) * Number(technicians),
    0,
  )
}

/** How tables of repair orders name the template: letters and digits of its name, as nobody else's yet. */
export function keyFor(name: string, taken: readonly string[]): string {
  const words = name
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replace(/^[^a-zA-Z]+/, '')
    .split(/[^a-zA-Z0-9]+/)
    .filter((word) => word !== '')
    .map((word, i) => {
      const lower = word.toLowerCase()
      return i === 0 ? lower : lower.charAt(0).toUpperCase() + lower.slice(1)
    })
  const base = words.join('').slice(0, 36)
  const stem = base.length < 2 ? 'template' : base
  let key = stem
  for (let i = 2; taken.includes(key); i += 1) key = `${stem}${i}`
  return key
}

import { OF_THE_VEHICLE, UNATTENDED, type OperationKind } from '@clampclock/contracts'
import type { RepairTemplate } from '../../api/types.ts'
import { programOf, USUAL_PROGRAM, type ProgramValues } from '../../features/oven/program.ts'
import { OPERATION } from '../../lib/words.ts'

type Step = RepairTemplate['steps'][number]

/** A step as it is being filled in. */
export interface StepValues {
  /** Tells steps apart while they change places. */
  readonly id: string
  kind: OperationKind
  name: string
  place: Step['place']
  workMinutes: number | string | null
  technicians: number | string
  skill: NonNullable<Step['skill']> | ''
  clampSets: number | string
  attributes: Step['attributes']
  highestMetalC: number | null
  /** A bake takes the minutes that somebody gives, or what the program of the oven takes on each vehicle. */
  bakeBy: 'minutes' | 'program'
  bakeProgram: ProgramValues
}

export const KINDS_OF_A_JOINT = (Object.keys(OPERATION) as OperationKind[]).filter(
  (kind) => !OF_THE_VEHICLE.includes(kind),
)

/** What a paint bake gets the metal to. Common practice, no source: the sheet of the paint says what it needs. */
const USUAL_METAL_C = 60

let count = 0

export function valuesOf(step: Step): StepValues {
  count += 1
  const { bakeProgram = null } = step
  return {
    ...step,
    id: String(count),
    // Who turns to minutes gives them.
    workMinutes: bakeProgram === null ? step.workMinutes : '',
    skill: step.skill ?? '',
    bakeBy: bakeProgram === null ? 'minutes' : 'program',
    bakeProgram: bakeProgram === null ? USUAL_PROGRAM : { rampCPerMinute: undefined, ...bakeProgram },
  }
}

/** What is sent of it; what a field was left without, the service names. */
export function stepOf(step: StepValues): Step {
  const { kind, name, place, attributes, workMinutes } = step
  const isByProgram = kind === 'bake' && step.bakeBy === 'program'
  return {
    kind,
    name,
    place,
    attributes,
    highestMetalC: isByProgram ? null : step.highestMetalC,
    bakeProgram: isByProgram ? programOf(step.bakeProgram) : null,
    workMinutes: workMinutes === null || isByProgram ? null : Number(workMinutes),
    technicians: Number(step.technicians),
    skill: step.skill === '' ? null : step.skill,
    clampSets: Number(step.clampSets),
  }
}

/** A new step of a kind, with nobody's minutes yet. */
function newStep(kind: OperationKind): StepValues {
  return valuesOf({
    kind,
    name: OPERATION[kind],
    place: kind === 'bake' || kind === 'paint' ? 'oven' : 'bay',
    workMinutes: kind === 'cure' ? null : 30,
    technicians: UNATTENDED.includes(kind) ? 0 : 1,
    skill: null,
    clampSets: kind === 'bondAndClamp' ? 1 : 0,
    attributes: [],
    highestMetalC: kind === 'bake' ? USUAL_METAL_C : null,
    bakeProgram: null,
  })
}

/** The step as one of another kind: what that kind has is kept, what it cannot have goes. */
export function asKind(step: StepValues, kind: OperationKind): StepValues {
  const fresh = newStep(kind)
  const isUnattended = UNATTENDED.includes(kind)
  return {
    ...step,
    kind,
    name: step.name === OPERATION[step.kind] ? fresh.name : step.name,
    place: kind === 'bake' ? 'oven' : step.place,
    technicians: isUnattended ? 0 : Number(step.technicians) || 1,
    skill: isUnattended ? '' : step.skill,
    highestMetalC: fresh.highestMetalC,
  }
}

/** The places that a step takes: a bond and its cure stay together. */
function unitOf(steps: readonly StepValues[], at: number): { readonly from: number; readonly size: number } {
  if (steps[at]?.kind === 'cure' && steps[at - 1]?.kind === 'bondAndClamp') return { from: at - 1, size: 2 }
  const isPair = steps[at]?.kind === 'bondAndClamp' && steps[at + 1]?.kind === 'cure'
  return { from: at, size: isPair ? 2 : 1 }
}

/** Where steps of the vehicle stand among each other: the program does them in this order, whatever is written. */
function stageOf({ kind }: StepValues): number {
  return OF_THE_VEHICLE.indexOf(kind)
}

/** The joint's steps as they are, then the vehicle's in the order in which they are done. */
export function inOrder(steps: readonly StepValues[]): StepValues[] {
  return steps.toSorted((a, b) => stageOf(a) - stageOf(b))
}

/** @returns the same steps where the one at `at` can go no further that way. */
export function moved(steps: readonly StepValues[], at: number, by: -1 | 1): readonly StepValues[] {
  const { from, size } = unitOf(steps, at)
  const neighbour = unitOf(steps, by < 0 ? from - 1 : from + size)
  const other = steps[neighbour.from]
  if (other === undefined || stageOf(other) !== stageOf(steps[at]!)) return steps
  const first = Math.min(from, neighbour.from)
  const unit = steps.slice(from, from + size)
  const passed = steps.slice(neighbour.from, neighbour.from + neighbour.size)
  return steps.toSpliced(
    first,
    size + neighbour.size,
    ...(by < 0 ? [...unit, ...passed] : [...passed, ...unit]),
  )
}

export function without(steps: readonly StepValues[], at: number): StepValues[] {
  const { from, size } = unitOf(steps, at)
  return steps.toSpliced(from, size)
}

/** A bond comes with its cure. */
export function withAnother(steps: readonly StepValues[], kind: OperationKind): StepValues[] {
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

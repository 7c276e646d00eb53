import type { OperationKind } from '@clampclock/contracts'
import { OF_THE_VEHICLE, UNATTENDED } from '../../api/contracts.ts'
import type { RepairTemplate } from '../../api/types.ts'
import { OPERATION } from '../../lib/words.ts'
import { programOf, USUAL_PROGRAM, type ProgramValues } from '../oven/program.ts'

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
  const { kind, name, place, technicians, clampSets, attributes, highestMetalC, bakeProgram = null } = step
  return {
    id: String(count),
    kind,
    name,
    place,
    technicians,
    clampSets,
    attributes,
    highestMetalC,
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
export function newStep(kind: OperationKind): StepValues {
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

import { formatTemperature } from '@clampclock/quantities'
import type { Operation } from '../../../api/types.ts'
import { programWords } from '../../../features/oven/program.ts'
import { BAY_ATTRIBUTE, SKILL } from '../../../lib/words.ts'

export function takes({ workMinutes, technicians, bakeProgram }: Operation): string {
  if (workMinutes === null) return 'as long as its bay lets it'
  if (bakeProgram !== null) return `${workMinutes} min by program`
  return `${workMinutes} min${technicians > 1 ? ` × ${technicians}` : ''}`
}

export function needs(
  { skill, clampSets, attributes, place, bakeProgram, highestMetalC }: Operation,
  unit: 'C' | 'F',
): string {
  return [
    place === 'oven' ? 'Oven' : '',
    bakeProgram === null ? '' : programWords(bakeProgram, unit),
    highestMetalC === null ? '' : `metal at most ${formatTemperature(highestMetalC, unit, 0)}`,
    skill === null ? '' : SKILL[skill],
    clampSets === 0 ? '' : `${clampSets} clamp ${clampSets === 1 ? 'set' : 'sets'}`,
    ...attributes.map((each) => BAY_ATTRIBUTE[each]),
  ]
    .filter((part) => part !== '')
    .join(', ')
}

/** What goes when this one is removed. */
export function whatGoes(operation: Operation, chain: readonly Operation[]): string {
  const other =
    operation.kind === 'bondAndClamp' ? 'cure' : operation.kind === 'cure' ? 'bondAndClamp' : undefined
  const partner = chain.find(({ kind }) => kind === other)
  if (partner === undefined) return `${operation.name} goes off this vehicle’s list.`
  return `${operation.name} and ${partner.name} go together: a bond and its cure are one piece of work.`
}

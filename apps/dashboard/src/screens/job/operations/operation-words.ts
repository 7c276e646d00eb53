import { formatTemperature } from '../../../lib/measures.ts'
import type { Operation } from '../../../api/types.ts'
import { programWords } from '../../../features/oven/program.ts'
import { BAY_ATTRIBUTE, SKILL } from '../../../lib/words.ts'
import { t } from '../../../lib/reader.ts'

export function takes({ workMinutes, technicians, bakeProgram }: Operation): string {
  if (workMinutes === null) return t('job.asLongAsItsBayLetsIt')
  if (bakeProgram !== null) return t('job.minByProgram', { workMinutes })
  return `${t('features.min', { minutes: workMinutes })}${technicians > 1 ? ` × ${technicians}` : ''}`
}

export function needs(
  { skill, clampSets, attributes, place, bakeProgram, highestMetalC }: Operation,
  unit: 'C' | 'F',
): string {
  return [
    place === 'oven' ? t('job.oven') : '',
    bakeProgram === null ? '' : programWords(bakeProgram, unit),
    highestMetalC === null
      ? ''
      : t('job.metalAtMost', { highestMetalC: formatTemperature(highestMetalC, unit, 0) }),
    skill === null ? '' : SKILL[skill],
    clampSets === 0 ? '' : t('lib.clampSets', { clampSets }),
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
  if (partner === undefined) return t('job.goesOffThisVehiclesList', { name: operation.name })
  return t('job.andGoTogetherABondAndItsCureAreOne', { name: operation.name, name2: partner.name })
}

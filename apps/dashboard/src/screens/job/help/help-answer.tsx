import { formatTemperature } from '../../../lib/measures.ts'
import type { Bond, HelpAnswer } from '../../../api/types.ts'
import { formatNear, toWholeMinute } from '../../../lib/instants.ts'
import { NEVER } from '../../../lib/words.ts'
import { Answer } from '../../../ui/answers/answer.tsx'
import { Facts } from '../../../ui/facts.tsx'
import { atLeast, BECAUSE, savedPerDegree } from './help-words.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly bond: Bond
  readonly help: HelpAnswer
  readonly by: string
  readonly warming: 'bay' | 'heatLamp'
  readonly unit: 'C' | 'F'
  readonly zone: string
  readonly nowMs: number
}

/** What would have this joint ready in time, and what stands in the way of more. */
export function HelpedBond({ bond, help, by, warming, unit, zone, nowMs }: Props) {
  const near = (iso: string) => formatNear(iso, zone, nowMs)
  const sure = (ready: HelpAnswer['readyAt']) =>
    ready.kind === 'at'
      ? near(new Date(toWholeMinute(Date.parse(ready.at))).toISOString())
      : NEVER[ready.reason]
  const limit = `${formatTemperature(help.limit.highestC, unit)}: ${BECAUSE[help.limit.because]}`
  const what = warming === 'bay' ? t('job.theBay') : t('job.theMetal')
  const tone = { onTime: 'ready', warm: 'curing', notPossible: 'danger' } as const
  return (
    <Answer
      tone={tone[help.verdict]}
      question={t('job.whatWouldHaveItReadyBy', { jointName: bond.jointName, by: near(by) })}
      word={wordOf(help, what, unit)}
    >
      <Facts
        facts={[
          [t('job.ifNothingIsDoneSureBy'), sure(help.readyAt)],
          [t('job.withThatSureBy'), help.verdict === 'warm' ? sure(help.readyAtWithHelp) : null],
          [
            t('job.allOfItWarmerSaves'),
            help.minutesSavedPerDegreeC === null ? null : savedPerDegree(help.minutesSavedPerDegreeC, unit),
          ],
          [t('job.neverWarmerThan'), limit],
        ]}
      />
    </Answer>
  )
}

function wordOf({ verdict, neededC, limit }: HelpAnswer, what: string, unit: 'C' | 'F'): string {
  if (verdict === 'onTime') return t('job.nothingItIsReadyInTime')
  if (neededC !== null) return t('job.keepAtFromNow', { what, neededC: atLeast(neededC, unit) })
  return t('job.nothingNotEvenAt', { what, highestC: formatTemperature(limit.highestC, unit) })
}

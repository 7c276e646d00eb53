import { formatTemperature } from '@clampclock/quantities'
import type { Bond, HelpAnswer } from '../../../api/types.ts'
import { formatNear } from '../../../lib/instants.ts'
import { NEVER } from '../../../lib/words.ts'
import { Answer } from '../../../ui/answers/answer.tsx'
import { Facts } from '../../../ui/facts.tsx'
import { atLeast, BECAUSE, savedPerDegree } from './help-words.ts'

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
  const sure = (ready: HelpAnswer['readyAt']) => (ready.kind === 'at' ? near(ready.at) : NEVER[ready.reason])
  const limit = `${formatTemperature(help.limit.highestC, unit)}: ${BECAUSE[help.limit.because]}`
  const what = warming === 'bay' ? 'the bay' : 'the metal'
  const tone = { onTime: 'ready', warm: 'curing', notPossible: 'danger' } as const
  return (
    <Answer
      tone={tone[help.verdict]}
      question={`${bond.jointName}: what would have it ready by ${near(by)}?`}
      word={wordOf(help, what, unit)}
    >
      <Facts
        facts={[
          ['If nothing is done, sure by', sure(help.readyAt)],
          ['With that, sure by', help.verdict === 'warm' ? sure(help.readyAtWithHelp) : null],
          [
            'All of it warmer saves',
            help.minutesSavedPerDegreeC === null ? null : savedPerDegree(help.minutesSavedPerDegreeC, unit),
          ],
          ['Never warmer than', limit],
        ]}
      />
    </Answer>
  )
}

function wordOf({ verdict, neededC, limit }: HelpAnswer, what: string, unit: 'C' | 'F'): string {
  if (verdict === 'onTime') return 'Nothing: it is ready in time'
  if (neededC !== null) return `Keep ${what} at ${atLeast(neededC, unit)} from now`
  return `Nothing: not even ${what} at ${formatTemperature(limit.highestC, unit)}`
}

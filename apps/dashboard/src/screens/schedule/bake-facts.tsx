import { formatTemperature } from '../../lib/measures.ts'
import type { Booking } from '../../api/types.ts'
import { programWords } from '../../features/oven/program.ts'
import { Facts } from '../../ui/facts.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly booking: Booking
  readonly unit: 'C' | 'F'
}

/** What a bake was booked by. */
export function BakeFacts({ booking: { bakeProgram, highestMetalC, metalStartC }, unit }: Props) {
  const degrees = (c: number) => formatTemperature(c, unit, 0)
  return (
    <Facts
      facts={[
        [t('schedule.metalAtItsWarmest'), highestMetalC === null ? null : degrees(highestMetalC)],
        [
          t('schedule.ovensProgram'),
          bakeProgram === null
            ? t('schedule.noneBookedByTheMetalTemperatureAlone')
            : programWords(bakeProgram, unit),
        ],
        [t('schedule.metalWhenItIsMoved'), metalStartC === null ? null : degrees(metalStartC)],
      ]}
    />
  )
}

import { formatTemperature } from '@clampclock/quantities'
import type { Booking } from '../../api/types.ts'
import { programWords } from '../../features/oven/program.ts'
import { Facts } from '../../ui/facts.tsx'

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
        ['Metal at its warmest', highestMetalC === null ? null : degrees(highestMetalC)],
        [
          "Oven's program",
          bakeProgram === null
            ? 'None: booked by the metal temperature alone'
            : programWords(bakeProgram, unit),
        ],
        ['Metal when it is moved', metalStartC === null ? null : degrees(metalStartC)],
      ]}
    />
  )
}

import { saidOf, Words } from '../foundation/words.ts'
import * as z from 'zod'
import { Id, Instant } from '../foundation/values.ts'

/** What makes a reading doubtful (packages/cure/src/readings/reading-finding.ts says of each when). */
export const ReadingFindingKind = z
  .enum([
    'outOfRange',
    'fahrenheit',
    'celsius',
    'tooFast',
    'spike',
    'stuck',
    'unchanged',
    'jumped',
    'apart',
    'aboveAir',
    'warmsInColderAir',
    'late',
    'outOfCalibration',
    'sentTwice',
    'twoValues',
  ])
  .meta({ id: 'ReadingFindingKind' })
export type ReadingFindingKind = z.output<typeof ReadingFindingKind>

export const ReadingFinding = z
  .object({
    kind: ReadingFindingKind,
    message: Words.describe('One sentence for a person'),
    said: saidOf('message'),
  })
  .meta({ id: 'ReadingFinding' })
export type ReadingFinding = z.output<typeof ReadingFinding>

/** `suspect` may only delay; `withdrawn` and `replaced` count for nothing, and stay on record. */
export const ReadingQuality = z
  .enum(['good', 'suspect', 'withdrawn', 'replaced'])
  .meta({ id: 'ReadingQuality' })
export type ReadingQuality = z.output<typeof ReadingQuality>

export const ConfirmedFindings = z
  .array(ReadingFindingKind)
  .max(20)
  .default([])
  .describe('The findings of a `reading-questioned` answer that you stand by: it is then stored as suspect')

/** Who took a reading back or replaced it. */
export const ReadingDecision = z
  .object({ at: Instant, by: z.string(), reason: z.string() })
  .meta({ id: 'ReadingDecision' })

/** A panel reading as it was taken, with what became of it. */
export const PanelMeasurement = z
  .object({
    id: Id,
    at: Instant,
    enteredAt: Instant.nullable().describe('null: before this was kept'),
    temperatureC: z.number(),
    accuracyC: z.number(),
    source: z.enum(['metalProbe', 'infrared']),
    by: z.string(),
    quality: ReadingQuality,
    findings: z.array(ReadingFinding),
    replacesId: Id.nullable().describe('The reading that it was put in the place of'),
    decision: ReadingDecision.nullable(),
  })
  .meta({ id: 'PanelMeasurement' })
export type PanelMeasurement = z.output<typeof PanelMeasurement>

import type { Message, Told } from '@clampclock/messages'
import * as z from 'zod'

/**
 * A sentence for a person. On the wire it is in the language and units of whoever asks; in the server's code it is what is
 * said, as data, and never text: the compiler refuses a sentence from outside the catalogue.
 */
export const Words = z.codec(z.string(), z.custom<Message>().meta({ type: 'string' }), {
  // Who reads an answer reads text: what it says as data is beside it, in `said`.
  decode: (text) => text as unknown as Message,
  // By now it has been put into words: anything else is refused by the schema of the wire.
  encode: (said) => said as unknown as string,
})

/** As `Words`, where somebody may have written it, or it was kept as it was told then: that is told as it is. */
export const WordsOrText = z.codec(z.string(), z.custom<Told>().meta({ type: 'string' }), {
  decode: (text) => text,
  encode: (told) => told as string,
})

/** What a sentence says, as data. */
export const Said = z
  .object({
    code: z.string().describe('Stable: programs may switch on it'),
    params: z
      .record(z.string(), z.unknown())
      .describe(
        'Names and numbers as they are; a quantity as an object that names its unit: {"celsius": 23}, {"millilitres": 40}, {"minutes": 12}, {"share": 0.63}, {"instant": …}, {"day": …}',
      ),
  })
  .meta({ id: 'Said' })

const SaidList = z.array(Said.nullable()).optional()

/** As `saidOf`, of a list of sentences: as many, null for one that somebody wrote. */
export function saidOfEach<const Field extends string>(...fields: readonly Field[]) {
  const shape = Object.fromEntries(fields.map((field) => [field, SaidList])) as {
    [Name in Field]: typeof SaidList
  }
  return z.object(shape).optional().describe('What the sentences say, as data, by field')
}

/** What the sentences beside it say, by the names of their fields; missing where somebody wrote the text. */
export function saidOf<const Field extends string>(...fields: readonly Field[]) {
  const shape = Object.fromEntries(fields.map((field) => [field, Said.optional()])) as {
    [Name in Field]: z.ZodOptional<typeof Said>
  }
  return z.object(shape).optional().describe('What the sentences say, as data, by field')
}

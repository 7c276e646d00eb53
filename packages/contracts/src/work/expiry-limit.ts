import * as z from 'zod'

/** What ends the life of a cartridge: which of the limits of rule 5 comes first. */
export const ExpiryLimit = z.enum(['printedExpiry', 'openLife', 'warmStorage']).meta({ id: 'ExpiryLimit' })

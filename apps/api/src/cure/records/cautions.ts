import type { BondRecord } from '@clampclock/contracts'

/** The cautions that go with every record, whatever it says. */
export const CAUTIONS: BondRecord['cautions'] = [
  'The data sheet and the safety data sheet rule over any figure here.',
  "Structural repair: by the vehicle maker's procedure and by trained people only.",
  'Handling strength is not driving strength.',
  'Ready times are estimates from measured and forecast temperatures; the careful one counts sensor errors and gaps against the joint.',
]

import { message, type Message } from '@clampclock/messages'

/** The cautions that go with every record, whatever it says. */
export const CAUTIONS: readonly Message[] = [
  message('record.cautionSheets'),
  message('record.cautionStructural'),
  message('record.cautionHandling'),
  message('record.cautionEstimates'),
]

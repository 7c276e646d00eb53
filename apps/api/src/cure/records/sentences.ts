import type { RecordEntry } from '@clampclock/contracts'
import { message, type Message, type Param } from '@clampclock/messages'
import { param } from '../../foundation/words/params.ts'

type Facts = RecordEntry['facts']

/** One sentence for an entry of a record, from its facts. */
export function sentenceOf(entry: RecordEntry): Message {
  const { reason } = entry
  const what = withoutReason(entry)
  const given = [
    'readingWithdrawn',
    'slid',
    'released',
    'abandoned',
    'incident',
    'disposition',
    'attachmentWithdrawn',
  ].includes(entry.kind)
  return given && reason !== null
    ? message('record.withReason', { what: { message: what }, reason: param(reason) })
    : what
}

function withoutReason({ kind, by, facts }: RecordEntry): Message {
  switch (kind) {
    case 'applied':
      return message('record.saidApplied', { by })
    case 'reading':
      return readingSentence(by, facts)
    case 'readingWithdrawn':
      return message('record.saidTakenBack', {
        temperature: temperatureOf(facts),
        how: text(facts, 'quality'),
        by,
      })
    case 'placed':
      return message('record.saidPlaced', { by, bay: text(facts, 'bay') })
    case 'slid':
      return message('record.saidSlid', { by })
    case 'clamped':
      return message('record.saidClamped', { by })
    case 'released':
      return releasedSentence(by, facts['conservativeProgress'])
    case 'abandoned':
      return message('record.saidAbandoned', { by })
    case 'incident':
      return message('record.saidIncident', { incident: text(facts, 'incident'), by })
    case 'inspection':
      return message('record.saidInspection', {
        inspector: text(facts, 'inspector'),
        method: text(facts, 'method'),
        result: text(facts, 'result'),
        by,
      })
    case 'disposition':
      return message('record.saidDisposition', { disposition: text(facts, 'disposition'), by })
    case 'photoAdded':
      return photoSentence(by, text(facts, 'text'), text(facts, 'sha256'))
    case 'noteAdded':
      return message('record.saidNote', { by, text: text(facts, 'text') })
    case 'attachmentWithdrawn':
      return message('record.saidAttachmentWithdrawn', { by, what: text(facts, 'what') })
    case 'vehicleCorrected':
      return message('record.saidVehicle', { by, was: identity(facts['was']), is: identity(facts['is']) })
  }
}

function photoSentence(by: string, caption: string, sha256: string): Message {
  return caption === ''
    ? message('record.saidPhotoAlone', { by, sha256 })
    : message('record.saidPhoto', { by, caption, sha256 })
}

function readingSentence(by: string, facts: Facts): Message {
  const what = { temperature: temperatureOf(facts), by }
  const { instrument } = facts
  if (typeof instrument !== 'object' || instrument === null) return message('record.saidReading', what)
  const { name, serialNumber, inCalibration } = instrument as Record<string, unknown>
  const read = { ...what, name: String(name), serial: String(serialNumber) }
  return inCalibration === true
    ? message('record.saidReadingWith', read)
    : message('record.saidReadingWithOut', read)
}

function releasedSentence(by: string, fraction: unknown): Message {
  if (typeof fraction !== 'number') return message('record.saidReleasedUnknown', { by })
  if (fraction >= 1) return message('record.saidReleasedPast', { by })
  // Rounded down: 99.7 % must not read as done.
  return message('record.saidReleasedAt', { by, reached: { share: fraction, round: 'down' } })
}

function text(facts: Facts, name: string): string {
  return typeof facts[name] === 'string' ? facts[name] : ''
}

function temperatureOf({ temperatureC }: Facts): Param {
  return typeof temperatureC === 'number' ? { celsius: temperatureC } : '?'
}

/** What tells a car, as people read it. */
function identity(told: unknown): Param {
  const { vehicle, vin, plate } = (told ?? {}) as Record<string, unknown>
  const parts: Param[] = [
    ...(typeof vehicle === 'string' && vehicle !== '' ? [vehicle] : []),
    ...(typeof plate === 'string' ? [{ message: message('record.plateOf', { plate }) }] : []),
    ...(typeof vin === 'string' ? [{ message: message('record.vinOf', { vin }) }] : []),
  ]
  return parts.length === 0 ? '?' : { list: parts, join: 'plain' }
}

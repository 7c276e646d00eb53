import type { Tx } from '../foundation/database/database.ts'
import { dateOf, isoDate } from '../foundation/http/dates.ts'
import type { Actor } from '../foundation/permissions/actor.ts'
import { addQualification } from '../foundation/access/qualifications.ts'
import { addInstrument } from '../foundation/shops/instruments.ts'
import { hoursFrom, type DemoInstruments } from './world.ts'

const DAY = 24
const dayFrom = (now: Date, days: number) => isoDate(hoursFrom(now, days * DAY))

/** A probe, an infrared thermometer and a hygrometer; in one shop the infrared one is long due for calibration. */
export async function addInstruments(
  tx: Tx,
  owner: Actor,
  shopId: string,
  shop: number,
  now: Date,
): Promise<DemoInstruments> {
  const add = async (
    kind: 'metalProbe' | 'infrared' | 'hygrometer',
    name: string,
    accuracy: number,
    calibratedForDays: number,
  ) => {
    const { id } = await addInstrument(
      tx,
      owner,
      shopId,
      {
        kind,
        name,
        serialNumber: `INV-${shop + 1}${name.length}0${kind.length}`,
        accuracyC: kind === 'hygrometer' ? null : accuracy,
        accuracyPercent: kind === 'hygrometer' ? accuracy : null,
        calibratedUntil: dayFrom(now, calibratedForDays),
      },
      now,
    )
    return id
  }
  const probeId = await add('metalProbe', 'Contact probe', 0.5, 120 + shop * 30)
  await add('infrared', 'Infrared thermometer', 2, shop === 1 ? -45 : 200)
  const hygrometerId = await add('hygrometer', 'Hygrometer', 2.5, 160)
  return { probeId, hygrometerId }
}

/** Everybody who bonds is qualified for every class, but for one whose certificate has run out. */
export async function addQualifications(
  tx: Tx,
  owner: Actor,
  people: readonly Actor[],
  now: Date,
): Promise<void> {
  for (const [i, person] of people.entries()) {
    const bonds = person.memberships.some(({ role }) => role === 'owner' || role === 'technician')
    if (!bonds) continue
    const expired = person.name === EXPIRED
    await addQualification(
      tx,
      owner,
      person.id,
      {
        safetyClass: expired ? 'S2' : 'S1',
        evidence: `Invented bonding course, certificate ${1200 + i * 7}`,
        issuedOn: dayFrom(now, expired ? -760 : -320 - i * 9),
        validUntil: dayFrom(now, expired ? -30 : 410 - i * 9),
      },
      dateOf(dayFrom(now, expired ? -755 : -310 - i * 9)),
    )
  }
}

const EXPIRED = 'Bartle Oakenshaw'

import { COPIED_C, HAND_AIR_ACCURACY_C } from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import { isAirByPanelThermometer } from './air-read-with.ts'

/** A comparison speaks for an instrument for so long. Common practice, no source. */
const SPEAKS_DAYS = 14

export interface BorneOut {
  /** Bays whose thermometer a hand thermometer agreed with of late. */
  readonly bays: ReadonlySet<string>
  /** Instruments of the register that agreed with a bay's thermometer of late. */
  readonly instruments: ReadonlySet<string>
}

interface Row {
  bay_id: string
  instrument_id: string | null
  source: string
  hygrometer_id: string | null
  air_read_with: string | null
  joint_c: number
  bay_c: number
  accuracy_c: number
}

/**
 * What the joints that were bonded in this shop in the fortnight before `before` bear out: each time the air was read by hand,
 * and so held against the bay's thermometer. The last comparison counts that was nearer than chance, or a copied display,
 * would have it.
 */
export async function borneOutBefore(tx: Tx, shopId: string, before: Date): Promise<BorneOut> {
  const from = new Date(before.getTime() - SPEAKS_DAYS * 86_400_000)
  const rows = await tx.$queryRaw<Row[]>`
    select b.bay_id, p.instrument_id, p.source, b.hygrometer_id, b.air_read_with,
           b.air_temperature_c as joint_c, r.temperature_c as bay_c, r.accuracy_c
      from bond b
      join lateral (
        select instrument_id, source from panel_reading
         where bond_id = b.id and at = b.applied_at order by recorded_at limit 1) p on true
      join lateral (
        select r.temperature_c, s.accuracy_c
          from sensor s
          join temperature_reading r on r.sensor_id = s.id
         where s.resource_id = b.bay_id and r.quality = 'good'
           and r.at between b.applied_at - interval '30 minutes' and b.applied_at + interval '30 minutes'
         order by abs(extract(epoch from r.at - b.applied_at)), r.at limit 1) r on true
     where b.shop_id = ${shopId}::uuid
       and b.applied_at >= ${from}::timestamptz and b.applied_at < ${before}::timestamptz
       and b.applied_recorded_at <= b.applied_at + interval '15 minutes'
     order by b.applied_at`
  const [bays, instruments] = [new Map<string, boolean>(), new Map<string, boolean>()]
  for (const row of rows) {
    const apartC = Math.abs(row.bay_c - row.joint_c)
    if (apartC <= COPIED_C) continue
    const agrees = apartC <= row.accuracy_c + HAND_AIR_ACCURACY_C
    bays.set(row.bay_id, agrees)
    const isByProbe = isAirByPanelThermometer({
      airReadWith: row.air_read_with,
      hygrometerId: row.hygrometer_id,
      source: row.source,
    })
    if (isByProbe && row.instrument_id !== null) instruments.set(row.instrument_id, agrees)
  }
  return { bays: agreeing(bays), instruments: agreeing(instruments) }
}

/** As text that is another one where anything is borne out otherwise. */
export function printOf({ bays, instruments }: BorneOut): string {
  return [[...bays].toSorted(), [...instruments].toSorted()].join(' / ')
}

function agreeing(verdicts: ReadonlyMap<string, boolean>): ReadonlySet<string> {
  return new Set([...verdicts].filter(([, agrees]) => agrees).map(([id]) => id))
}

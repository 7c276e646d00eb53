import {
  comparedAtJoint,
  HAND_AIR_ACCURACY_C,
  type AirAtJoint,
  type AirRead,
  type Compared,
  type MetalReading,
} from '@clampclock/cure'
import type { Tx } from '../../foundation/database/database.ts'
import type { BayTemperature } from '../temperature/bay-temperature.ts'
import { isAirByPanelThermometer } from './air-read-with.ts'
import type { BondRow } from './bond-store.ts'
import { borneOutBefore, printOf } from './borne-out.ts'

type Bay = Pick<BayTemperature, 'readings' | 'forecast'>
type PanelReading = BondRow['panelReadings'][number]

/** The air at the joint as somebody read it when the adhesive went on. */
export function airReadAt({
  appliedAt,
  airTemperatureC,
}: Pick<BondRow, 'appliedAt' | 'airTemperatureC'>): AirRead {
  return { atMs: appliedAt.getTime(), temperatureC: airTemperatureC, accuracyC: HAND_AIR_ACCURACY_C }
}

/** With what it is held against: the thermometer of the bay, and the one that reads the panel where that read the air. */
export function airAtJointOf(bond: BondRow, coldestMetalC: number): AirAtJoint {
  const source = firstOf(bond)?.source
  return {
    ...airReadAt(bond),
    isByPanelThermometer: isAirByPanelThermometer({ ...bond, source }),
    coldestMetalC,
  }
}

function firstOf({
  appliedAt,
  panelReadings,
}: Pick<BondRow, 'appliedAt' | 'panelReadings'>): PanelReading | undefined {
  return panelReadings.find(({ at }) => at.getTime() === appliedAt.getTime())
}

/** The thermometer that read the panel at the application: the same instrument, or none named either time. */
export function isByPanelThermometer(
  bond: Pick<BondRow, 'appliedAt' | 'panelReadings'>,
  { instrumentId, source }: PanelReading,
): boolean {
  const first = firstOf(bond)
  return first?.source === source && first.instrumentId === instrumentId
}

/** A reading of the metal, and the instrument of the register that took it. */
export interface TakenReading extends MetalReading {
  readonly instrumentId: string | null
}

interface Place {
  readonly shopId: string
  readonly bayId: string | null
}

/** As `Compared`, and what it would be if all that nothing bears out were borne out; null where everything is. */
export interface ComparedAir extends Compared {
  readonly ifProven: Compared | null
  /** What other joints bore out, as text; null where nobody had to ask. */
  readonly borneOut: string | null
}

/** The air at the joint and the metal, held against what there is: the bay's thermometer, and comparisons of late. */
export async function comparedAir(
  tx: Tx,
  { shopId, bayId }: Place,
  { readings, forecast }: Bay,
  metal: readonly TakenReading[],
  joint: AirAtJoint,
): Promise<ComparedAir> {
  const alone = comparedAtJoint(readings, metal, joint, forecast)
  if (!isUnproven(alone)) return { ...alone, ifProven: null, borneOut: null }
  const others = await borneOutBefore(tx, shopId, new Date(joint.atMs))
  const { bays, instruments } = others
  const borneOut = printOf(others)
  const compared = comparedAtJoint(
    readings,
    metal.map((reading) => ({
      ...reading,
      isBorneOut: reading.instrumentId !== null && instruments.has(reading.instrumentId),
    })),
    { ...joint, isBayBorneOut: bayId !== null && bays.has(bayId) },
    forecast,
  )
  if (!isUnproven(compared)) return { ...compared, ifProven: null, borneOut }
  const all = metal.map((reading) => ({ ...reading, isBorneOut: true }))
  return {
    ...compared,
    borneOut,
    ifProven: comparedAtJoint(readings, all, { ...joint, isBayBorneOut: true }, forecast),
  }
}

function isUnproven({ notes }: Compared): boolean {
  return notes.some(({ kind }) => kind === 'metalUnproven' || kind === 'airUnproven')
}

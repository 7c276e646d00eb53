import { comparedAtJoint, HAND_AIR_ACCURACY_C, type AirAtJoint, type Compared } from '@clampclock/cure'
import type { BayTemperature } from '../temperature/bay-temperature.ts'
import type { BondRow } from './bond-store.ts'

type Bay = Pick<BayTemperature, 'readings' | 'forecast'>
type PanelReading = BondRow['panelReadings'][number]

/**
 * The air at the joint as somebody read it when the adhesive went on, held against the thermometer of the bay. Where a
 * hygrometer of the register read it, it says nothing of the panel's thermometer.
 */
export function airAtJointOf(
  bond: Pick<BondRow, 'appliedAt' | 'airTemperatureC' | 'hygrometerId' | 'panelReadings'>,
): AirAtJoint {
  return {
    atMs: bond.appliedAt.getTime(),
    temperatureC: bond.airTemperatureC,
    accuracyC: HAND_AIR_ACCURACY_C,
    // A spot of infrared cannot see the air.
    isByPanelThermometer: bond.hygrometerId === null && firstOf(bond)?.source === 'metalProbe',
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

export function comparedAir(
  { readings, forecast }: Bay,
  metal: Parameters<typeof comparedAtJoint>[1],
  joint: AirAtJoint,
): Compared {
  return comparedAtJoint(readings, metal, joint, forecast)
}

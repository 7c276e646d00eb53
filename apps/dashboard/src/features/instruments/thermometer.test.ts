import { describe, expect, it } from 'vitest'
import type { Instrument } from '../../api/types.ts'
import { instrumentLabel, thermometerOf, thermometersOf, UNREGISTERED, valueOf } from './thermometer.ts'

const probe: Instrument = {
  id: 'p',
  shopId: 's',
  kind: 'metalProbe',
  name: 'Probe',
  serialNumber: '7',
  accuracyC: 0.5,
  accuracyPercent: null,
  calibratedUntil: '2031-12-31',
  inCalibration: true,
  active: true,
  version: 1,
}
const due: Instrument = {
  ...probe,
  id: 'i',
  kind: 'infrared',
  name: 'Gun',
  accuracyC: 2,
  calibratedUntil: '2031-04-30',
  inCalibration: false,
}
const damp: Instrument = { ...probe, id: 'h', kind: 'hygrometer', accuracyC: null, accuracyPercent: 3 }
const register = [due, damp, probe, { ...probe, id: 'x', active: false }]

describe('thermometersOf', () => {
  it('leaves out hygrometers and what is out of use, and puts those in calibration first', () => {
    expect(thermometersOf(register).map(({ id }) => id)).toEqual(['p', 'i'])
  })
})

describe('instrumentLabel', () => {
  it('says the accuracy in the unit of the shop, and what is out of calibration', () => {
    expect(instrumentLabel(probe, 'F')).toBe('Probe 7, ± 0.9 °F')
    expect(instrumentLabel(due, 'C')).toBe('Gun 7, ± 2.0 °C, out of calibration since 30 Apr 2031')
    expect(instrumentLabel({ ...damp, calibratedUntil: null, inCalibration: false }, 'C')).toBe(
      'Probe 7, ± 3 %, never calibrated',
    )
  })
})

describe('thermometerOf', () => {
  it('takes kind and accuracy from the register', () => {
    const chosen = thermometerOf('i', register, UNREGISTERED)
    expect(chosen).toEqual({ source: 'infrared', instrumentId: 'i', accuracyC: 2 })
    expect(valueOf(chosen)).toBe('i')
  })
  it('keeps what was typed for one that is not on record, and forgets what the register said', () => {
    const typed = { ...UNREGISTERED, accuracyC: 3 }
    expect(thermometerOf('infrared', register, typed)).toEqual({ ...typed, source: 'infrared' })
    expect(thermometerOf('metalProbe', register, thermometerOf('i', register, typed))).toEqual(UNREGISTERED)
  })
})

import { useEffect, useEffectEvent, useState } from 'react'
import type { Instrument } from '../../api/types.ts'
import { hygrometersOf, thermometerOf, thermometersOf } from '../../features/instruments/thermometer.ts'
import type { Thermometer } from '../../features/instruments/thermometer.ts'
import { takeScans } from '../../features/scan/scan-takers.ts'
import { t } from '../../lib/reader.ts'
import type { Draft } from './application.ts'

/**
 * A scan of an instrument's serial number chooses it. One that stands on two of them chooses neither: which was in the
 * hand nobody knows.
 *
 * @returns what was scanned last, in words
 */
export function useScannedInstrument(
  instruments: readonly Instrument[],
  thermometer: Thermometer,
  choose: (change: Partial<Draft>) => void,
): string | undefined {
  const [words, setWords] = useState<string>()
  const onScan = useEffectEvent((text: string): boolean => {
    const [thermometers, hygrometers] = [thermometersOf(instruments), hygrometersOf(instruments)]
    const serial = text.trim().toLowerCase()
    const [found, another] = [...thermometers, ...hygrometers].filter(
      ({ serialNumber }) => serialNumber.trim().toLowerCase() === serial,
    )
    if (found === undefined || another !== undefined) return false
    choose(
      found.kind === 'hygrometer'
        ? { hygrometerId: found.id }
        : { thermometer: thermometerOf(found.id, thermometers, thermometer) },
    )
    setWords(t('start-bond.scanned', { code: `${found.name} ${found.serialNumber}` }))
    return true
  })
  useEffect(() => takeScans((text) => onScan(text)), [])
  return words
}

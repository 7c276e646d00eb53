interface AirReading {
  readonly airReadWith?: string | null | undefined
  readonly hygrometerId: string | null
  /** Of the thermometer that read the panel. */
  readonly source: string | undefined
}

/**
 * Whether the thermometer that reads the panel read the air at the joint too, and was so held against the bay's. A spot of
 * infrared cannot see the air. Where nobody said, a hygrometer that is named read it.
 */
export function isAirByPanelThermometer({ airReadWith, hygrometerId, source }: AirReading): boolean {
  if (source !== 'metalProbe') return false
  return airReadWith ? airReadWith === 'panelThermometer' : hygrometerId === null
}

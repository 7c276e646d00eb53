/** An invented product: nothing of it stands on any cartridge. */
const SHEET = {
  points: [
    { temperatureC: 10, workTimeMinutes: 120, handlingTimeMinutes: 360, fullCureMinutes: 2880 },
    { temperatureC: 23, workTimeMinutes: 60, handlingTimeMinutes: 180, fullCureMinutes: 1440 },
    { temperatureC: 40, workTimeMinutes: 20, handlingTimeMinutes: 60, fullCureMinutes: 480 },
  ],
  applicationRangeC: { min: 10, max: 35 },
  lowestCureC: 5,
  highestCureC: 80,
  serviceRangeC: { min: -40, max: 120 },
}

const HISTORY = {
  sheet: SHEET,
  appliedAt: '2031-05-07T12:00:00Z',
  asOf: '2031-05-07T13:00:00Z',
  readings: [
    { at: '2031-05-07T12:00:00Z', temperatureC: 23, accuracyC: 0.5, source: 'metalProbe' },
    { at: '2031-05-07T12:30:00Z', temperatureC: 23, accuracyC: 0.5, source: 'metalProbe' },
    { at: '2031-05-07T13:00:00Z', temperatureC: 23, accuracyC: 0.5, source: 'metalProbe' },
  ],
  forecast: [
    { at: '2031-05-07T13:00:00Z', lowC: 22, expectedC: 23, highC: 24 },
    { at: '2031-05-08T13:00:00Z', lowC: 20, expectedC: 23, highC: 26 },
  ],
}

/** One request for each calculation: shown in the API document and in docs/calculations.md, sent by a test. */
export const CALCULATION_EXAMPLES = {
  cure: HISTORY,
  whatWouldHelp: {
    ...HISTORY,
    by: '2031-05-07T14:30:00Z',
    warming: 'heatLamp',
    toleranceC: 2,
    isClosed: true,
  },
  oven: {
    program: {
      airStartC: 25,
      setPointC: 70,
      rampCPerMinute: 5,
      airToleranceC: 3,
      metalTargetC: 60,
      dwellMinutes: 30,
      coolAirC: 22,
      touchC: 40,
    },
    moveAt: '2031-05-07T16:00:00Z',
    metalStartC: 22,
    panels: [
      { name: 'Door skin', tauMinutes: 4 },
      { name: 'Rocker', tauMinutes: 11 },
    ],
    bonds: [
      {
        joint: 'Door skin, left',
        product: 'Invented 60',
        sheet: SHEET,
        panel: 'Door skin',
        handlingReadyAt: { kind: 'at', at: '2031-05-07T15:20:00Z' },
        fullCureProgress: { earliest: 0.2, expected: 0.17, conservative: 0.14 },
      },
    ],
  },
  panelHeat: {
    layers: [
      { material: 'mildSteel', thicknessMm: 0.8 },
      { material: 'curedAdhesive', thicknessMm: 0.25 },
      { material: 'mildSteel', thicknessMm: 0.8 },
    ],
    sidesHeated: 2,
    heatTransferWPerM2K: 25,
    run: {
      startC: 20,
      air: [
        { atMinutes: 0, airC: 70 },
        { atMinutes: 60, airC: 70 },
      ],
      targetC: 60,
    },
  },
  bead: {
    bead: { shape: 'round', diameterMm: 4 },
    lengthMm: 2000,
    skimWidthMm: 12,
    skimFilmMm: 0.25,
    nozzleHoldUpMl: 8,
    wasteShare: 0.1,
    cartridgeMl: 200,
    flangeWidthMm: 12,
    glassBeadMm: 0.25,
    flowMlPerMinute: 20,
    workTimeMinutes: 60,
  },
  dewPoint: {
    airTemperatureC: 25,
    relativeHumidityPercent: 85,
    panel: { temperatureC: 25, accuracyC: 0.5 },
  },
  shelfLife: {
    printedExpiry: '2031-12-31',
    timeZone: 'America/New_York',
    openLifeDays: 30,
    storage: {
      labelStorageC: 23,
      q10: 2,
      readings: [
        { at: '2031-04-01T00:00:00Z', temperatureC: 33 },
        { at: '2031-05-01T00:00:00Z', temperatureC: 33 },
      ],
    },
    asOf: '2031-05-07T12:00:00Z',
  },
  dataSheetFit: {
    points: [
      { temperatureC: 10, minutes: 360 },
      { temperatureC: 23, minutes: 180 },
      { temperatureC: 40, minutes: 60 },
    ],
    temperaturesC: [15, 30],
  },
}

import { inEnglish } from '../../foundation/words/words.ts'
import { expect, it } from 'vitest'
import { readImportTable } from './import-table.ts'

const HEAD =
  'number,vehicle,promisedAt,priority,joint,product,panelMaterial,panelThicknessMm,safetyClass,lengthMm,flangeWidthMm,beadDiameterMm,template'
const messages = (csv: string) =>
  readImportTable(csv, 'America/New_York').faults.map(({ message }) => inEnglish(message))

it('makes one repair order of the lines of one number', () => {
  const { orders, faults } = readImportTable(
    `${HEAD}
RO-1,"Invented Estate, 2020",2031-05-09T16:00,high,Door skin,Test adhesive,mildSteel,0.8,S3,2600,12,4,doorSkin
RO-1,"Invented Estate, 2020",2031-05-09T16:00,high,Rocker,Test adhesive,highStrengthSteel,1.2,S1,2900,20,4,rocker
RO-2,Invented Van,,,,,,,,,,,`,
    'America/New_York',
  )
  expect(faults).toEqual([])
  expect(orders).toHaveLength(2)
  expect(orders[0]).toMatchObject({
    number: 'RO-1',
    vehicle: 'Invented Estate, 2020',
    // 16:00 on the shop's clock, in summer.
    promisedAt: new Date('2031-05-09T20:00:00Z'),
    priority: 'high',
    joints: [
      { name: 'Door skin', lengthMm: 2600, safetyClass: 'S3' },
      { name: 'Rocker', panelThicknessMm: 1.2 },
    ],
    templates: [
      { joint: 'Door skin', key: 'doorSkin' },
      { joint: 'Rocker', key: 'rocker' },
    ],
  })
  expect(orders[1]).toMatchObject({ promisedAt: null, priority: 'normal', joints: [], templates: [] })
})

it('reads semicolons only as text, and a mark of the encoding not at all', () => {
  expect(messages('\uFEFFnumber,vehicle\nRO-1,Van')).toEqual([])
  expect(messages('number;vehicle\nRO-1;Van').join()).toContain('number')
})

it('names every fault with its line', () => {
  expect(
    messages(`${HEAD}
RO-1,,sometime,urgent,,,,,,,,,
RO-2,Van,,,Door skin,Test adhesive,,thick,S3,2600,12,4,
RO-3,Van,,,,,,,,2600,,,
RO-3,Another van,2031-05-09,,,,,,,,,,`),
  ).toEqual([
    'Line 2: vehicle must not be empty',
    expect.stringContaining('Line 2: priority'),
    expect.stringContaining('Line 3: panelThicknessMm must be a number'),
    'Line 4: lengthMm without a joint',
    'Line 5: promisedAt 2031-05-09 is no time',
    'Line 5: RO-3 is the vehicle Van on line 4',
  ])
})

it('takes plate and VIN from the first line of a number, and refuses another vehicle behind it', () => {
  const vin = 'TESTVAN0000000001'
  const { orders, faults } = readImportTable(
    `number,vehicle,plate,vin\nRO-1,Van,INV 100,${vin}\nRO-1,Van,,\nRO-2,Van,,`,
    'America/New_York',
  )
  expect(faults).toEqual([])
  expect(orders).toMatchObject([
    { plate: 'INV 100', vin },
    { plate: null, vin: null },
  ])
  expect(
    messages(`number,vehicle,plate,vin\nRO-1,Van,INV 100,\nRO-1,Van,INV 101,\nRO-2,Van,,not a VIN`),
  ).toEqual(['Line 3: RO-1 has the plate INV 100 on line 2', expect.stringContaining('Line 4: vin')])
})

it('says what a joint lacks, and refuses columns that it does not know', () => {
  expect(messages(`number,vehicle,joint,colour\nRO-1,Van,Roof,red`)[0]).toContain('colour')
  expect(messages(`number,vehicle,joint\nRO-1,Van,Roof`)).toEqual([
    'Line 2: the joint Roof needs product, panelMaterial, panelThicknessMm, safetyClass, lengthMm, flangeWidthMm, beadDiameterMm',
  ])
})

it('tells an empty table, and one with a quote that never ends', () => {
  expect(messages('number,vehicle')).toEqual(['Line 1: there are no repair orders'])
  expect(messages('number,vehicle\n"RO-1,Van')[0]).toMatch(/^Line \d+: /)
})

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ProblemError } from '../../../api/problem.ts'
import {
  emptyDelivery,
  missingIn,
  questionsOf,
  refusalOf,
  toRequest,
  withLine,
  withoutLine,
  withReceipt,
  withScan,
  type Delivery,
  type Receipt,
  type ScannedProduct,
} from './delivery.ts'

const EMPTY: Delivery = { ...emptyDelivery('s'), locationId: 'shelf', deliveryNote: 'N-1' }
const SCAN: ScannedProduct = {
  kind: 'product',
  gtin: '09520123456788',
  product: { id: 'p', name: 'Snark', cartridgeForm: 'wide' },
  cartridges: 1,
  lotNumber: 'L1',
  lot: null,
  expiry: { date: '2031-02-28', precision: 'month' },
  serial: null,
  questions: [],
}
let serial = 0
const scanned = (delivery: Delivery, scan: ScannedProduct) =>
  withScan(delivery, `scan ${(serial += 1)}`, scan)
const linesOf = ({ lines }: Delivery) => lines.map(({ lotNumber, cartridges }) => [lotNumber, cartridges])

describe('a delivery, filled by scans', () => {
  it('takes product, lot and expiry, and keeps shelf and delivery note', () => {
    const { lines, ...rest } = scanned(EMPTY, SCAN)
    expect(lines).toMatchObject([
      { productId: 'p', lotNumber: 'L1', precision: 'month', printedExpiry: '2031-02', cartridges: 1 },
    ])
    expect(rest).toMatchObject({ locationId: 'shelf', deliveryNote: 'N-1' })
  })

  it('counts the same lot again as one more, and starts another line for another lot', () => {
    const three = [SCAN, SCAN, SCAN].reduce(scanned, EMPTY)
    const two = scanned(three, { ...SCAN, lotNumber: 'L2' })
    expect(linesOf(two)).toEqual([
      ['L1', 3],
      ['L2', 1],
    ])
    expect(two.lines.find(({ id }) => id === two.currentId)?.lotNumber).toBe('L2')
    expect(linesOf(scanned(two, SCAN))).toEqual([
      ['L1', 4],
      ['L2', 1],
    ])
  })

  it('counts every scan once, in whatever order and however often it is told', () => {
    const lot = fc.constantFrom('L1', 'L2', 'L3')
    fc.assert(
      fc.property(fc.array(fc.tuple(lot, fc.integer({ min: 1, max: 3 })), { maxLength: 20 }), (scans) => {
        const told = scans.flatMap(([lotNumber, times], i) =>
          Array.from({ length: times }, () => ({ id: `${i}`, scan: { ...SCAN, lotNumber } })),
        )
        const { lines } = told.reduce((old, { id, scan }) => withScan(old, id, scan), EMPTY)
        for (const name of ['L1', 'L2', 'L3']) {
          const wanted = scans.filter(([lotNumber]) => lotNumber === name).length
          const line = lines.find(({ lotNumber }) => lotNumber === name)
          expect(line?.cartridges ?? 0).toBe(wanted)
        }
      }),
    )
  })

  it('counts a serial number once', () => {
    const carton = { ...SCAN, cartridges: 12, serial: 'C1' }
    const one = scanned(scanned(EMPTY, carton), carton)
    expect(one.lines).toMatchObject([{ cartridges: 12, serials: ['C1'] }])
    expect(scanned(one, { ...carton, serial: 'C2' }).lines).toMatchObject([
      { cartridges: 24, serials: ['C1', 'C2'] },
    ])
  })

  it('never takes two scans without a lot for the same lot, and loses neither', () => {
    const bare = { ...SCAN, lotNumber: null }
    expect(linesOf(scanned(scanned(EMPTY, bare), bare))).toEqual([
      ['', 1],
      ['', 1],
    ])
  })

  it('takes the expiry on file where the label has none', () => {
    const known = { ...SCAN, expiry: null, lot: { id: 'l', printedExpiry: '2031-05-31' } }
    expect(scanned(EMPTY, known).lines).toMatchObject([{ precision: 'day', printedExpiry: '2031-05-31' }])
  })

  it('leaves a line alone that is on its way', () => {
    const one = scanned(EMPTY, SCAN)
    const more = withScan(one, 'late', SCAN, new Set([one.currentId]))
    expect(linesOf(more)).toEqual([
      ['L1', 1],
      ['L1', 1],
    ])
  })
})

describe('a delivery that is received', () => {
  const line = (delivery: Delivery) => delivery.lines[0]!

  it('says what a line lacks, and asks anew with each scan', () => {
    const asked = { ...SCAN, questions: [{ code: 'expired' as const, message: 'It has expired' }] }
    expect(missingIn(line(EMPTY))).toBe('Choose its product')
    expect(missingIn(line(scanned(EMPTY, { ...SCAN, lotNumber: null })))).toBe('Give its lot number')
    expect(missingIn(line(scanned(EMPTY, SCAN)))).toBeUndefined()
    const one = scanned(EMPTY, asked)
    expect(missingIn(line(one))).toBe('Look at what is asked about it')
    const looked = withLine(one, one.currentId, { hasLooked: true })
    expect(missingIn(line(looked))).toBeUndefined()
    expect(missingIn(line(scanned(looked, asked)))).toBe('Look at what is asked about it')
  })

  it('asks about a typed expiry that is past or too far ahead, and not about one on the last day', () => {
    const today = '2031-02-28'
    const typed = (precision: 'day' | 'month', printedExpiry: string) =>
      questionsOf({ ...line(scanned(EMPTY, SCAN)), precision, printedExpiry }, today).map(({ code }) => code)
    expect(typed('day', '2031-02-27')).toEqual(['expired'])
    expect(typed('day', '2031-02-28')).toEqual([])
    expect(typed('month', '2031-01')).toEqual(['expired'])
    expect(typed('month', '2031-02')).toEqual([])
    expect(typed('day', '2041-02-28')).toEqual([])
    expect(typed('day', '2071-03-01')).toEqual(['farAhead'])
    expect(missingIn({ ...line(scanned(EMPTY, SCAN)), printedExpiry: '2030-01' }, today)).toBe(
      'Look at what is asked about it',
    )
  })

  it('sends a line with the shelf and the note of the delivery', () => {
    const delivery = scanned(EMPTY, SCAN)
    expect(toRequest(delivery, line(delivery))).toMatchObject({
      params: { shopId: 's' },
      body: { printedExpiry: { month: '2031-02' }, cartridges: 1, locationId: 'shelf', deliveryNote: 'N-1' },
    })
  })

  it('takes a line out once it is in, once however often that is told, and leaves a blank one', () => {
    const receipt = { receiptId: 'r' } as Receipt
    const delivery = scanned(EMPTY, SCAN)
    const once = withReceipt(delivery, delivery.currentId, receipt, 'blank')
    const twice = withReceipt(once, delivery.currentId, receipt, 'other')
    for (const { lines, receipts, currentId } of [once, twice]) {
      expect(lines).toMatchObject([{ id: 'blank', lotNumber: '' }])
      expect(currentId).toBe('blank')
      expect(receipts).toEqual([receipt])
    }
    // The next scan is of the next delivery.
    expect(scanned(once, SCAN).receipts).toEqual([])
    const two = scanned(delivery, { ...SCAN, lotNumber: 'L2' })
    expect(linesOf(withoutLine(two, two.currentId, 'x'))).toEqual([['L1', 1]])
  })

  it('puts a refusal beside the field that it names, and says the rest', () => {
    const reason = (field?: string) => ({ code: 'x', message: 'Is wrong', ...(field ? { field } : {}) })
    const of = (...reasons: ReturnType<typeof reason>[]) =>
      refusalOf(new ProblemError('invalid-request', 422, 'Mend it', reasons))
    expect(of(reason('body.printedExpiry.date'))).toEqual({
      byField: { printedExpiry: 'Is wrong' },
      message: null,
    })
    expect(of(reason('body.deliveryNote'))).toEqual({ byField: {}, message: 'Mend it' })
    expect(refusalOf(new Error('No'))).toEqual({ byField: {}, message: 'No' })
  })
})

import { describe, expect, it } from 'vitest'
import { filledBy, NEXT_BOX, type ReceiveValues, type ScannedProduct } from './receipt.ts'

const EMPTY: ReceiveValues = {
  ...NEXT_BOX,
  shopId: 's',
  precision: 'day',
  locationId: 'shelf',
  deliveryNote: 'N-1',
}
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

describe('the receive form, filled by scans', () => {
  it('takes product, lot and expiry, and keeps shelf and delivery note', () => {
    expect(filledBy(EMPTY, SCAN)).toMatchObject({
      productId: 'p',
      lotNumber: 'L1',
      precision: 'month',
      printedExpiry: '2031-02',
      cartridges: 1,
      locationId: 'shelf',
      deliveryNote: 'N-1',
    })
  })

  it('counts the same lot again as one more, and another lot afresh', () => {
    const three = filledBy(filledBy(filledBy(EMPTY, SCAN), SCAN), SCAN)
    expect(three.cartridges).toBe(3)
    expect(filledBy(three, { ...SCAN, lotNumber: 'L2' })).toMatchObject({ lotNumber: 'L2', cartridges: 1 })
  })

  it('counts a serial number once', () => {
    const carton = { ...SCAN, cartridges: 12, serial: 'C1' }
    const one = filledBy(filledBy(EMPTY, carton), carton)
    expect(one).toMatchObject({ cartridges: 12, serials: ['C1'] })
    expect(filledBy(one, { ...carton, serial: 'C2' })).toMatchObject({
      cartridges: 24,
      serials: ['C1', 'C2'],
    })
  })

  it('never takes two scans without a lot for the same lot', () => {
    const bare = { ...SCAN, lotNumber: null }
    expect(filledBy(filledBy(EMPTY, bare), bare).cartridges).toBe(1)
  })

  it('takes the expiry on file where the label has none', () => {
    const known = { ...SCAN, expiry: null, lot: { id: 'l', printedExpiry: '2031-05-31' } }
    expect(filledBy(EMPTY, known)).toMatchObject({ precision: 'day', printedExpiry: '2031-05-31' })
  })
})

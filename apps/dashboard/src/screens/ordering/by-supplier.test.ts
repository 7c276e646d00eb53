import { describe, expect, it } from 'vitest'
import type { ReplenishmentLine } from '../../api/types.ts'
import { bySupplier } from './by-supplier.ts'

const line = (productId: string, supplierId: string | null, suggestedCartridges: number) =>
  ({
    productId,
    suggestedCartridges,
    supply: supplierId === null ? null : { supplierId, supplierName: `Supplier ${supplierId}` },
  }) as ReplenishmentLine

describe('bySupplier', () => {
  it('puts what is wanted first, suppliers and lines alike, and keeps apart what nobody supplies', () => {
    const { suppliers, without } = bySupplier([
      line('a', 'x', 0),
      line('b', 'y', 0),
      line('c', 'y', 4),
      line('d', null, 0),
    ])
    expect(suppliers.map(({ supplierId }) => supplierId)).toEqual(['y', 'x'])
    expect(suppliers[0]!.lines.map(({ productId }) => productId)).toEqual(['c', 'b'])
    expect(without.map(({ productId }) => productId)).toEqual(['d'])
  })
})

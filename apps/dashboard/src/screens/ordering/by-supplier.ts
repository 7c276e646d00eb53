import type { ReplenishmentLine } from '../../api/types.ts'

export type SuppliedLine = ReplenishmentLine & { readonly supply: NonNullable<ReplenishmentLine['supply']> }

export interface SupplierGroup {
  readonly supplierId: string
  readonly supplierName: string
  readonly lines: readonly SuppliedLine[]
  /** Changes when what is proposed does: what was typed over it starts afresh. */
  readonly key: string
}

/** The lines of each supplier, those with something to order first; and the lines that nobody supplies. */
export function bySupplier(lines: readonly ReplenishmentLine[]): {
  readonly suppliers: readonly SupplierGroup[]
  readonly without: readonly ReplenishmentLine[]
} {
  const supplied = lines.filter((line): line is SuppliedLine => line.supply !== null)
  const ids = [...new Set(supplied.map(({ supply }) => supply.supplierId))]
  const suppliers = ids.map((supplierId) => {
    const own = supplied
      .filter(({ supply }) => supply.supplierId === supplierId)
      .toSorted((a, b) => Number(b.suggestedCartridges > 0) - Number(a.suggestedCartridges > 0))
    return {
      supplierId,
      supplierName: own[0]!.supply.supplierName,
      lines: own,
      key: own.map(({ productId, suggestedCartridges }) => `${productId}${suggestedCartridges}`).join(),
    }
  })
  const wanted = (group: SupplierGroup) => group.lines.some((line) => line.suggestedCartridges > 0)
  return {
    suppliers: suppliers.toSorted(
      (a, b) => Number(wanted(b)) - Number(wanted(a)) || a.supplierName.localeCompare(b.supplierName),
    ),
    without: lines.filter(({ supply }) => supply === null),
  }
}
